-- When the last write of an attempt went out, as long as no answer to it has come: the recipient
-- may still carry it out. Stays where the process that sent it ended.
alter table delivery_attempt add column unanswered_since timestamp with time zone;

-- Whether that write had people or organisations in it that other patients' treatments share.
alter table delivery_attempt add column unanswered_shared boolean default false not null;

create index delivery_by_patient on delivery (recipient, patient);
