-- Version 3. What was printed: which sheet or label, when, at which revision, by which command, and its check code.
CREATE TABLE "printed" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "item" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "words" TEXT NOT NULL,
  "at" TEXT NOT NULL,
  "revision" INTEGER NOT NULL,
  "code" TEXT NOT NULL
) STRICT;
