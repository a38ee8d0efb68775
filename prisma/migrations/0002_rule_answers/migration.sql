ALTER TABLE "Job" ADD COLUMN "soldAt" DATETIME;
ALTER TABLE "Job" ADD COLUMN "deliveredAt" DATETIME;

CREATE TABLE "RuleAnswer" (
  "jobId" TEXT NOT NULL,
  "rule" TEXT NOT NULL,
  "surfaceId" TEXT NOT NULL,
  "stepId" TEXT NOT NULL,
  "answer" TEXT NOT NULL,
  "note" TEXT,
  "answeredAt" DATETIME NOT NULL,
  PRIMARY KEY ("jobId", "rule", "surfaceId", "stepId"),
  CONSTRAINT "RuleAnswer_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "RuleAnswer_surfaceId_fkey" FOREIGN KEY ("surfaceId") REFERENCES "Surface" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "RuleAnswer_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "RuleAnswer_surfaceId_idx" ON "RuleAnswer" ("surfaceId");
CREATE INDEX "RuleAnswer_stepId_idx" ON "RuleAnswer" ("stepId");
