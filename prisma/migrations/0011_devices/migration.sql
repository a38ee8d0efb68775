CREATE TABLE "Passphrase" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "hash" TEXT NOT NULL,
  "changedAt" DATETIME NOT NULL
);

CREATE TABLE "Device" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "tokenHash" TEXT NOT NULL,
  "way" TEXT NOT NULL,
  "addedAt" DATETIME NOT NULL,
  "seenAt" DATETIME NOT NULL,
  "endsAt" DATETIME NOT NULL
);

CREATE UNIQUE INDEX "Device_tokenHash_key" ON "Device" ("tokenHash");

CREATE TABLE "PairingCode" (
  "codeHash" TEXT NOT NULL PRIMARY KEY,
  "endsAt" DATETIME NOT NULL
);
