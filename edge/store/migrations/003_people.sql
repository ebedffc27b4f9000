-- What: people, their sessions, codes that pair a phone, failed sign-ins, and whether the shop network is wanted.
-- Why: with the network on everybody signs in. Of passwords, tokens and codes only hashes are kept; the waits after failed
-- sign-ins survive a restart, else restarting would be a way to try on.
create table person (
  id text not null primary key,
  name text not null collate nocase unique,
  role text not null check (role in ('reader', 'technician', 'owner')),
  password_hash text not null,
  made_s integer not null
) strict;
create table session (
  id text not null primary key,
  person_id text not null references person (id) on delete cascade,
  device text not null,
  token_digest text not null unique,
  made_s integer not null,
  seen_s integer not null
) strict;
create index session_of_person on session (person_id);
create table pairing (
  code_digest text not null primary key,
  person_id text not null references person (id) on delete cascade,
  until_s integer not null
) strict;
create table attempt (
  key text not null primary key,
  failures integer not null,
  last_s integer not null
) strict;
create table network (
  only_row integer not null primary key check (only_row = 1),
  wanted integer not null check (wanted in (0, 1)),
  name text not null
) strict;
