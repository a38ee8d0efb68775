CREATE TABLE "Change" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "jobId" TEXT NOT NULL,
    "changedAt" DATETIME NOT NULL,
    "undoneAt" DATETIME,
    "kind" TEXT NOT NULL,
    "before" TEXT NOT NULL,
    "after" TEXT NOT NULL,
    CONSTRAINT "Change_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "Change_jobId_changedAt_idx" ON "Change"("jobId", "changedAt");
