-- Lists go by title and id; each trial's factors and words are looked up beside it.
create index shared_trial_by_title on shared_trial (title_sought, id);
create index shared_trial_by_crop on shared_trial (crop_sought, title_sought, id);
create index shared_trial_by_protocol on shared_trial (protocol, title_sought, id);
create index shared_trial_by_trial on shared_trial (trial_id);
create index factor_by_name on factor (pack_id, name_sought);
create index word_by_value on word (pack_id, value_sought);
