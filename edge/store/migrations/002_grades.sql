-- What: the grades of kept judgements get the names that serve every kind of harm.
-- Why: an answer can now be decided by solvent, water or dye, which know no "in the grain" and "at depth".
update judgement set
  grade = replace(replace(grade, 'over_in_grain', 'lasting'), 'over_at_depth', 'deep'),
  answer = replace(replace(answer, '"over_in_grain"', '"lasting"'), '"over_at_depth"', '"deep"');
