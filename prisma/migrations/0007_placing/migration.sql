ALTER TABLE "Original" ADD COLUMN "colours" TEXT;
CREATE TABLE "Placing" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "jobId" TEXT NOT NULL,
    "placedAt" DATETIME NOT NULL,
    "undoneAt" DATETIME,
    "record" TEXT NOT NULL,
    CONSTRAINT "Placing_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "Placing_jobId_placedAt_idx" ON "Placing"("jobId", "placedAt");
