CREATE TABLE "OwnMark" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "words" TEXT NOT NULL,
    "picture" BLOB,
    "changedAt" DATETIME NOT NULL
);
