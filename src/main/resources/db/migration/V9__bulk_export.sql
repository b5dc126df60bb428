-- Exports of many resources that somebody asked for. The files stand in the data directory, by the
-- id and the attempt; a row whose attempt was cut short is worked off anew.
create table bulk_export (
    id               varchar(36)              not null primary key,
    owner            varchar(400)             not null,
    owner_name       varchar(1000)            not null,
    owner_kind       varchar(20)              not null,
    -- the clinics the owner reached when they asked, a line each; a star for all
    reach            text                     not null,
    -- the request as it was written, for the manifest
    request          text                     not null,
    types            varchar(4000)            not null,
    changed_since    timestamp with time zone,
    asked_at         timestamp with time zone not null,
    -- what is exported is what was true at this sequence; later changes carry no earlier time
    moment           bigint                   not null,
    transaction_time timestamp with time zone not null,
    state            varchar(10)              not null,
    attempt          integer                  not null,
    leased_until     timestamp with time zone,
    written          bigint                   not null,
    total            bigint                   not null,
    expires_at       timestamp with time zone,
    -- the files of a finished one, a line each: type, number of resources
    output           text                     not null
);

create index bulk_export_by_owner on bulk_export (owner);
create index bulk_export_by_state on bulk_export (state, asked_at);
