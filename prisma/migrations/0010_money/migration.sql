ALTER TABLE "Surface" ADD COLUMN "areaSquareMetres" REAL;
ALTER TABLE "Product" ADD COLUMN "packsBought" REAL;
ALTER TABLE "Step" ADD COLUMN "weighedBeforeGrams" REAL;
ALTER TABLE "Step" ADD COLUMN "weighedAfterGrams" REAL;

CREATE TABLE "CostEntry" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "jobId" TEXT NOT NULL,
  "pieceId" TEXT,
  "kind" TEXT NOT NULL,
  "words" TEXT NOT NULL,
  "quantity" REAL NOT NULL,
  "eachMinor" REAL NOT NULL,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "CostEntry_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "CostEntry_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "CostEntry_jobId_idx" ON "CostEntry" ("jobId");
CREATE INDEX "CostEntry_pieceId_idx" ON "CostEntry" ("pieceId");

CREATE TABLE "WorkEntry" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "jobId" TEXT NOT NULL,
  "pieceId" TEXT,
  "words" TEXT NOT NULL,
  "minutes" INTEGER NOT NULL,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "WorkEntry_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "WorkEntry_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "WorkEntry_jobId_idx" ON "WorkEntry" ("jobId");
CREATE INDEX "WorkEntry_pieceId_idx" ON "WorkEntry" ("pieceId");

CREATE TABLE "StepHours" (
  "stepId" TEXT NOT NULL PRIMARY KEY,
  "workMinutes" INTEGER,
  "setUpMinutes" INTEGER,
  "cleanUpMinutes" INTEGER,
  "otherPieces" INTEGER NOT NULL DEFAULT 0,
  CONSTRAINT "StepHours_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

CREATE TABLE "Sale" (
  "jobId" TEXT NOT NULL PRIMARY KEY,
  "priceMinor" INTEGER,
  "feesPaidMinor" INTEGER,
  "taxMinor" INTEGER,
  "feePercent" REAL,
  "feeFixedMinor" INTEGER,
  CONSTRAINT "Sale_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

CREATE TABLE "Rates" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "hourlyMinor" INTEGER,
  "yearlyOverheadMinor" INTEGER,
  "productiveHours" REAL,
  "feePercent" REAL,
  "feeFixedMinor" INTEGER,
  "setUpMinutes" INTEGER,
  "cleanUpMinutes" INTEGER
);
