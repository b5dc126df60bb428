-- What a version of a resource is searched by, besides its identifier and its patient. It stands in
-- the version's own row: rows of their own for each code made the embedded database write 1.7 times
-- as much for a treatment.

-- Codes, in lines that a search looks for as a whole; see CodeLines.
alter table resource_version add column codes varchar;

-- The time it speaks of, from the first instant in it to the first one after it; absent: not known,
-- or not ended.
alter table resource_version add column begins timestamp with time zone;
alter table resource_version add column ends timestamp with time zone;

-- In which form the above stands; 0: not yet. The next start brings what is in force up to date.
alter table resource_version add column terms_form smallint default 0 not null;
create index resource_version_by_terms on resource_version (terms_form);
