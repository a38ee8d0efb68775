CREATE TABLE "Pair" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "jobId" TEXT NOT NULL,
  "beforeId" TEXT NOT NULL,
  "afterId" TEXT NOT NULL,
  "view" TEXT,
  "how" TEXT NOT NULL,
  "homography" TEXT,
  "model" TEXT,
  "confidence" REAL,
  "doubt" TEXT,
  "turns" TEXT NOT NULL,
  "createdAt" DATETIME NOT NULL,
  "confirmedAt" DATETIME,
  "separatedAt" DATETIME,
  CONSTRAINT "Pair_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "Pair_beforeId_fkey" FOREIGN KEY ("beforeId") REFERENCES "Photo" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "Pair_afterId_fkey" FOREIGN KEY ("afterId") REFERENCES "Photo" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Pair_beforeId_afterId_key" ON "Pair" ("beforeId", "afterId");
CREATE INDEX "Pair_jobId_idx" ON "Pair" ("jobId");
CREATE INDEX "Pair_afterId_idx" ON "Pair" ("afterId");
