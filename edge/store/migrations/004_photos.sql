-- What: photographs, and those whose upload has begun.
-- Why: the bytes lie in files under their SHA-256 beside the database; a row is written only once the file is whole, so a
-- photograph without its file cannot come about. The number gives the order of arrival.
create table photo (
  number integer not null primary key,
  id text not null unique check (length(id) = 64),
  bytes integer not null check (bytes > 0),
  type text not null check (type in ('image/jpeg', 'image/png')),
  width_px integer not null check (width_px > 0),
  height_px integer not null check (height_px > 0),
  orientation integer not null check (orientation between 1 and 8),
  taken_at text not null,
  arrived_at text not null,
  arrival text not null check (arrival in ('camera', 'file', 'import')),
  name text not null
) strict;
create table photo_part (
  id text not null primary key check (length(id) = 64),
  bytes integer not null check (bytes > 0),
  name text not null,
  arrival text not null check (arrival in ('camera', 'file', 'import'))
) strict;
