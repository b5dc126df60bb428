-- What resources are searched by besides identifiers and patients: the codes and times of the
-- search parameters that R4 defines for their types, of each version. Rows go with their version.
create table resource_code (
    resource_type     varchar(64)              not null,
    logical_id        varchar(64)              not null,
    version           integer                  not null,
    -- of the search parameter
    name              varchar(40)              not null,
    -- empty: a code of no system
    code_system       varchar(400)             not null,
    code              varchar(200)             not null,
    foreign key (resource_type, logical_id, version)
        references resource_version (resource_type, logical_id, version) on delete cascade
);

create index resource_code_of_version on resource_code (logical_id, version);
create index resource_code_by_code on resource_code (code, name);

-- A day or a time of day is a span too: from its first instant to the first one after it.
create table resource_time (
    resource_type     varchar(64)              not null,
    logical_id        varchar(64)              not null,
    version           integer                  not null,
    -- of the search parameter
    name              varchar(40)              not null,
    -- absent: it has no known begin
    begins            timestamp with time zone,
    -- absent: it has not ended
    ends              timestamp with time zone,
    foreign key (resource_type, logical_id, version)
        references resource_version (resource_type, logical_id, version) on delete cascade
);

create index resource_time_of_version on resource_time (logical_id, version);

-- In which form a version's codes and times stand above; 0: not yet. The next start brings those
-- that are in force up to date.
alter table resource_version add column terms_form smallint default 0 not null;
create index resource_version_by_terms on resource_version (terms_form);
