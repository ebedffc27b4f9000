-- What: limits for the air that hold where the shop is, each with who says so.
-- Why: limits differ from country to country and from year to year; the shop's own outrank every table that is built in.
create table own_limit (
  id   text not null primary key,
  body text not null check (json_valid(body))
) strict;
