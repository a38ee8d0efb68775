CREATE TABLE "BinSettings" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "keepDays" INTEGER,
    "originalDays" INTEGER NOT NULL,
    "countsFrom" DATETIME,
    "lookedAt" DATETIME
);

CREATE TABLE "ReleasedOriginal" (
    "sha256" TEXT NOT NULL PRIMARY KEY,
    "byteLength" INTEGER NOT NULL,
    "releasedAt" DATETIME NOT NULL
);
CREATE INDEX "ReleasedOriginal_releasedAt_idx" ON "ReleasedOriginal"("releasedAt");
