-- The checksum that archives ask for, and the nightly backup.
ALTER TABLE "Original" ADD COLUMN "crc32" BIGINT;

CREATE TABLE "BackupSettings" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "folder" TEXT,
    "keepDays" INTEGER NOT NULL,
    "keepWeeks" INTEGER NOT NULL,
    "keepMonths" INTEGER NOT NULL,
    "triedAt" DATETIME,
    "problem" TEXT,
    "doneAt" DATETIME,
    "doneFile" TEXT,
    "doneBytes" BIGINT,
    "doneMissing" INTEGER,
    "downloadedAt" DATETIME
);
