CREATE TABLE "Workshop" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "zone" TEXT NOT NULL,
  "currency" TEXT NOT NULL,
  "units" TEXT NOT NULL,
  "createdAt" DATETIME NOT NULL
);

CREATE TABLE "Job" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "title" TEXT NOT NULL,
  "createdAt" DATETIME NOT NULL,
  "finishedAt" DATETIME,
  "revision" INTEGER NOT NULL DEFAULT 0,
  "askingPriceMinor" INTEGER,
  "collection" TEXT
);
CREATE INDEX "Job_createdAt_idx" ON "Job" ("createdAt");
CREATE INDEX "Job_finishedAt_idx" ON "Job" ("finishedAt");

CREATE TABLE "Piece" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "jobId" TEXT NOT NULL,
  "position" INTEGER NOT NULL,
  "name" TEXT NOT NULL,
  "kind" TEXT NOT NULL,
  "widthMillimetres" INTEGER,
  "depthMillimetres" INTEGER,
  "heightMillimetres" INTEGER,
  "material" TEXT,
  "flaws" TEXT,
  CONSTRAINT "Piece_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "Piece_jobId_position_idx" ON "Piece" ("jobId", "position");

CREATE TABLE "Surface" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "pieceId" TEXT NOT NULL,
  "position" INTEGER NOT NULL,
  "name" TEXT NOT NULL,
  CONSTRAINT "Surface_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "Surface_pieceId_position_idx" ON "Surface" ("pieceId", "position");

CREATE TABLE "Camera" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "make" TEXT NOT NULL,
  "model" TEXT NOT NULL,
  "serial" TEXT NOT NULL,
  "clockCorrectionSeconds" INTEGER,
  "clockUncertaintySeconds" INTEGER,
  "createdAt" DATETIME NOT NULL
);
CREATE UNIQUE INDEX "Camera_make_model_serial_key" ON "Camera" ("make", "model", "serial");

CREATE TABLE "Original" (
  "sha256" TEXT NOT NULL PRIMARY KEY,
  "byteLength" INTEGER NOT NULL,
  "mediaType" TEXT NOT NULL,
  "width" INTEGER NOT NULL,
  "height" INTEGER NOT NULL,
  "keptAt" DATETIME NOT NULL
);

CREATE TABLE "Product" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "category" TEXT NOT NULL,
  "chemistry" TEXT NOT NULL,
  "label" TEXT NOT NULL,
  "packAmount" REAL,
  "packUnit" TEXT,
  "packPriceMinor" INTEGER,
  "link" TEXT,
  "createdAt" DATETIME NOT NULL
);

CREATE TABLE "Step" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "jobId" TEXT NOT NULL,
  "kind" TEXT NOT NULL,
  "productId" TEXT,
  "method" TEXT,
  "thinningPercent" REAL,
  "grit" INTEGER,
  "amount" REAL,
  "amountUnit" TEXT,
  "startedAt" DATETIME,
  "finishedAt" DATETIME,
  "note" TEXT,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "Step_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "Step_productId_fkey" FOREIGN KEY ("productId") REFERENCES "Product" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Step_jobId_idx" ON "Step" ("jobId");
CREATE INDEX "Step_productId_idx" ON "Step" ("productId");

CREATE TABLE "StepSurface" (
  "stepId" TEXT NOT NULL,
  "surfaceId" TEXT NOT NULL,
  "coat" INTEGER,
  PRIMARY KEY ("stepId", "surfaceId"),
  CONSTRAINT "StepSurface_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "StepSurface_surfaceId_fkey" FOREIGN KEY ("surfaceId") REFERENCES "Surface" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "StepSurface_surfaceId_idx" ON "StepSurface" ("surfaceId");

CREATE TABLE "Photo" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "jobId" TEXT NOT NULL,
  "sha256" TEXT NOT NULL,
  "fileName" TEXT NOT NULL,
  "arrivedAt" DATETIME NOT NULL,
  "fileModifiedAt" DATETIME,
  "role" TEXT NOT NULL,
  "view" TEXT,
  "stepId" TEXT,
  "cameraId" TEXT,
  "exifLocal" TEXT,
  "exifOffset" TEXT,
  "satelliteAt" DATETIME,
  "takenAt" DATETIME NOT NULL,
  "takenEarliest" DATETIME NOT NULL,
  "takenLatest" DATETIME NOT NULL,
  "takenBasis" TEXT NOT NULL,
  "warnings" TEXT NOT NULL DEFAULT '[]',
  CONSTRAINT "Photo_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "Photo_sha256_fkey" FOREIGN KEY ("sha256") REFERENCES "Original" ("sha256") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Photo_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
  CONSTRAINT "Photo_cameraId_fkey" FOREIGN KEY ("cameraId") REFERENCES "Camera" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Photo_jobId_sha256_key" ON "Photo" ("jobId", "sha256");
CREATE INDEX "Photo_jobId_takenAt_idx" ON "Photo" ("jobId", "takenAt");
CREATE INDEX "Photo_stepId_idx" ON "Photo" ("stepId");
CREATE INDEX "Photo_sha256_idx" ON "Photo" ("sha256");
CREATE INDEX "Photo_cameraId_idx" ON "Photo" ("cameraId");

CREATE TABLE "PhotoSurface" (
  "photoId" TEXT NOT NULL,
  "surfaceId" TEXT NOT NULL,
  PRIMARY KEY ("photoId", "surfaceId"),
  CONSTRAINT "PhotoSurface_photoId_fkey" FOREIGN KEY ("photoId") REFERENCES "Photo" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "PhotoSurface_surfaceId_fkey" FOREIGN KEY ("surfaceId") REFERENCES "Surface" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "PhotoSurface_surfaceId_idx" ON "PhotoSurface" ("surfaceId");

CREATE TABLE "AirReading" (
  "at" DATETIME NOT NULL PRIMARY KEY,
  "celsius" REAL NOT NULL,
  "humidity" REAL NOT NULL
);
