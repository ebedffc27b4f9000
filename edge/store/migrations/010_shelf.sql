-- What: the shelf as entries in the order of arrival; which data sheets belong to the demo workshop.
-- Why: bottles are opened and emptied by several people, sometimes without a network; what was entered is never changed, and what
-- stands is folded from it. Columns instead of one body: the whole shelf is read to say what has to be seen to.
create table shelf_entry (
  number integer not null primary key,
  id text not null unique,
  product text not null,
  did text not null,
  lot text not null,
  at text not null,
  by_id text not null,
  by_name text not null,
  kept_at text not null,
  key text not null,
  value text not null,
  measured integer not null check (measured in (0, 1)),
  code text not null,
  expiry text not null,
  place text not null,
  amount real,
  piece text not null,
  sheet text not null,
  person text not null,
  takes_back text not null,
  note text not null,
  demo integer not null default 0 check (demo in (0, 1))
) strict;
create index shelf_entry_of_product on shelf_entry (product, number);
alter table sheet add column demo integer not null default 0 check (demo in (0, 1));
