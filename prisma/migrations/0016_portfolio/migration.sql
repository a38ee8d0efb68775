CREATE TABLE "PortfolioPage" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "pieceId" TEXT NOT NULL,
    "draft" TEXT NOT NULL,
    "slug" TEXT,
    "published" TEXT,
    "publishedAt" DATETIME,
    "changedAt" DATETIME,
    CONSTRAINT "PortfolioPage_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "PortfolioPage_pieceId_key" ON "PortfolioPage"("pieceId");
CREATE UNIQUE INDEX "PortfolioPage_slug_key" ON "PortfolioPage"("slug");

CREATE TABLE "PortfolioSettings" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "publicAddress" TEXT,
    "introduction" TEXT NOT NULL,
    "contact" TEXT NOT NULL
);
