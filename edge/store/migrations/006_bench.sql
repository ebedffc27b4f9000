-- What: how the tests of the bench stand in this shop: whether it has what they take, and the minutes of work.
-- Why: the next best test is worth what it saves for each minute of work, and minutes differ from shop to shop.
create table shop_test (
  name text not null primary key,
  body text not null check (json_valid(body))
) strict;
