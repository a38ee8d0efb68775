CREATE TABLE "Receipt" (
    "key" TEXT NOT NULL,
    "part" INTEGER NOT NULL,
    "jobId" TEXT NOT NULL,
    "fingerprint" TEXT NOT NULL,
    "answer" TEXT NOT NULL,
    "writtenAt" DATETIME NOT NULL,
    PRIMARY KEY ("key", "part"),
    CONSTRAINT "Receipt_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "Receipt_jobId_idx" ON "Receipt"("jobId");
CREATE INDEX "Step_createdAt_idx" ON "Step"("createdAt");
