-- What: the grades of kept judgements get the names that serve every kind of harm; their gentle and harsh readings go.
-- Why: an answer can now be decided by solvent, water or dye, which know no "in the grain" and "at depth"; and an ensemble
-- stands where three readings stood. An old judgement keeps its sentence on how sure it was.
update judgement set
  grade = replace(replace(grade, 'over_in_grain', 'lasting'), 'over_at_depth', 'deep'),
  answer = json_remove(replace(replace(answer, '"over_in_grain"', '"lasting"'), '"over_at_depth"', '"deep"'), '$.cases');
