-- What: finds the pieces that have test spots.
-- Why: the list of spots that wait to be read asks all pieces, and would otherwise read every entry of the shop.
create index entry_of_spot on entry (piece) where json_extract(body, '$.did') = 'spot_made';
