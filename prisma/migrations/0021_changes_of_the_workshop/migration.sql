-- What is changed on the shelf and of the cameras' clocks belongs to no job.
CREATE TABLE "new_Change" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "jobId" TEXT,
    "changedAt" DATETIME NOT NULL,
    "undoneAt" DATETIME,
    "kind" TEXT NOT NULL,
    "before" TEXT NOT NULL,
    "after" TEXT NOT NULL,
    CONSTRAINT "Change_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
INSERT INTO "new_Change" ("id", "jobId", "changedAt", "undoneAt", "kind", "before", "after")
SELECT "id", "jobId", "changedAt", "undoneAt", "kind", "before", "after" FROM "Change";
DROP TABLE "Change";
ALTER TABLE "new_Change" RENAME TO "Change";
CREATE INDEX "Change_jobId_changedAt_idx" ON "Change"("jobId", "changedAt");
