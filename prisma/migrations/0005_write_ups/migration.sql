ALTER TABLE "Piece" ADD COLUMN "style" TEXT;
ALTER TABLE "Piece" ADD COLUMN "age" TEXT;
ALTER TABLE "Piece" ADD COLUMN "ageKnownBy" TEXT;
ALTER TABLE "Piece" ADD COLUMN "hardware" TEXT;
ALTER TABLE "Piece" ADD COLUMN "liner" TEXT;
ALTER TABLE "Photo" ADD COLUMN "flaw" TEXT;
ALTER TABLE "Job" ADD COLUMN "client" TEXT;
ALTER TABLE "Job" ADD COLUMN "brief" TEXT;
ALTER TABLE "Product" ADD COLUMN "paidLink" BOOLEAN NOT NULL DEFAULT false;
CREATE TABLE "SentenceEdit" (
  "jobId" TEXT NOT NULL,
  "writeUp" TEXT NOT NULL,
  "sentence" TEXT NOT NULL,
  "words" TEXT NOT NULL,
  "madeOn" TEXT NOT NULL,
  "editedAt" DATETIME NOT NULL,
  PRIMARY KEY ("jobId", "writeUp", "sentence"),
  CONSTRAINT "SentenceEdit_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE TABLE "WriteUpSettings" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "listingTitleLimit" INTEGER NOT NULL,
  "listingLimit" INTEGER NOT NULL,
  "videoLimit" INTEGER NOT NULL,
  "captionLimit" INTEGER NOT NULL,
  "links" TEXT NOT NULL,
  "tags" TEXT NOT NULL
);
