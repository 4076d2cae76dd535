-- Version 5. Who made a change of the house. The index of full-text search (no part of the house), and whether it was
-- true when that change was made.
ALTER TABLE "change" ADD COLUMN "who" TEXT NOT NULL DEFAULT '';
CREATE VIRTUAL TABLE "search" USING fts5("name", "body", tokenize = 'unicode61 remove_diacritics 2');
ALTER TABLE "change" ADD COLUMN "indexed" INTEGER NOT NULL DEFAULT 0;
