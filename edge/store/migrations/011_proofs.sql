-- What: coverings that were proven after the tests of the bench, and what the tests had shown.
-- Why: the shop's own counts are added up from these rows; a wrong one is taken back by another row, so the counts can be told again.
create table proof (
  number integer not null primary key,
  id text not null unique,
  at text not null,
  body text not null check (json_valid(body))
) strict;
