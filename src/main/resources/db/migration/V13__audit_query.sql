-- Path and parameters of a search or history: who was sought. It may name a patient. Records of
-- before have none.
alter table audit_event add column query text;
