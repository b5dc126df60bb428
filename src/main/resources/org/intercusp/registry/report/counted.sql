-- Each case once.
SELECT c.* FROM cases c LEFT JOIN dropped d ON d.sequence = c.sequence WHERE d.sequence IS NULL
