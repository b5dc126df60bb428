-- Deliveries: one for each version of a treatment and each recipient, asked for once and kept.
create table delivery (
    id              varchar(36)              not null primary key,
    clinic_system   varchar(400)             not null,
    clinic_value    varchar(200)             not null,
    treatment_id    varchar(200)             not null,
    version         integer                  not null,
    recipient       varchar(64)              not null,
    -- digest of the patient's identifier: deliveries of one patient to one recipient follow
    -- one another
    patient         char(64)                 not null,
    state           varchar(20)              not null,
    reason          varchar(2000)            not null,
    queued_at       timestamp with time zone not null,
    changed_at      timestamp with time zone not null,
    due_at          timestamp with time zone,
    attempts        integer                  not null,
    fence           bigint                   not null,
    unique (clinic_system, clinic_value, treatment_id, version, recipient),
    foreign key (clinic_system, clinic_value, treatment_id, version)
        references treatment_version (clinic_system, clinic_value, treatment_id, version)
);

create index delivery_by_state on delivery (state, changed_at);

create table delivery_attempt (
    delivery_id     varchar(36)              not null references delivery (id),
    number          integer                  not null,
    started_at      timestamp with time zone not null,
    ended_at        timestamp with time zone,
    outcome         varchar(20)              not null,
    reason          varchar(2000)            not null,
    status          integer                  not null,
    words           text                     not null,
    -- the report of what the recipient then held, as JSON
    report          text,
    primary key (delivery_id, number)
);

-- Who works for a patient and a recipient at the moment. The fence counts up with every new
-- holder, and a result is only taken from the holder of the newest.
create table delivery_lane (
    recipient       varchar(64)              not null,
    patient         char(64)                 not null,
    holder          varchar(100),
    fence           bigint                   not null,
    until           timestamp with time zone not null,
    primary key (recipient, patient)
);

-- What each recipient was given of a treatment.
create table delivered_resource (
    recipient         varchar(64)            not null,
    clinic_system     varchar(400)           not null,
    clinic_value      varchar(200)           not null,
    treatment_id      varchar(200)           not null,
    resource_type     varchar(64)            not null,
    search_parameter  varchar(20)            not null,
    identifier_system varchar(400)           not null,
    identifier_value  varchar(1000)          not null,
    server_id         varchar(200)           not null,
    sent              char(64)               not null,
    stored            char(64)               not null,
    withdrawn         boolean                not null
);

create index delivered_resource_by_treatment
    on delivered_resource (recipient, clinic_system, clinic_value, treatment_id);

-- The clockwork's own table, in the columns its library expects.
create table scheduled_tasks (
    task_name            varchar(100)             not null,
    task_instance        varchar(100)             not null,
    task_data            bytea,
    execution_time       timestamp with time zone not null,
    picked               boolean                  not null,
    picked_by            varchar(100),
    last_success         timestamp with time zone,
    last_failure         timestamp with time zone,
    consecutive_failures integer,
    last_heartbeat       timestamp with time zone,
    version              bigint                   not null,
    priority             smallint,
    primary key (task_name, task_instance)
);

create index scheduled_tasks_by_time on scheduled_tasks (execution_time);
create index scheduled_tasks_by_heartbeat on scheduled_tasks (last_heartbeat);
