CREATE TABLE "Captions" (
  "jobId" TEXT NOT NULL PRIMARY KEY,
  "text" TEXT,
  "chapters" TEXT,
  "settled" TEXT NOT NULL DEFAULT '[]',
  "keptAt" DATETIME NOT NULL,
  CONSTRAINT "Captions_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
