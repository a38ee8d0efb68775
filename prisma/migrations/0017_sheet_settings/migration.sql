CREATE TABLE "SheetSettings" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "credit" TEXT NOT NULL,
    "look" TEXT
);
