-- Who and what each row is about, in 64 bits each; brief is the engine's own hash of a text. Among a
-- million persons two share one by chance once in 37 million registries.
SELECT brief(person) AS who, brief(treatment) AS course, sequence FROM cases
