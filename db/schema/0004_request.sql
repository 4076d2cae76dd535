-- Version 4. Requests that were taken, by the key that their sender drew: one that arrives twice, because its answer was lost on the
-- way, is done once. No part of the house.
CREATE TABLE "request" (
  "key" TEXT NOT NULL PRIMARY KEY,
  "revision" INTEGER NOT NULL
) STRICT;
