-- Text is compared by its bytes in both databases, so that lists have the same order.
create table shared_trial (
    id ${text} not null primary key,
    trial_id ${text} not null,
    title ${text} not null,
    title_sought ${text} not null,
    crop ${text} not null,
    crop_sought ${text} not null,
    question ${text} not null,
    trays integer not null,
    outcome ${text} not null,
    sealed boolean not null,
    version ${text} not null,
    protocol ${text} not null,
    farm ${text},
    added ${text} not null,
    withdrawn ${text},
    withdrawn_why ${text}
);

create table factor (
    pack_id ${text} not null references shared_trial (id),
    place integer not null,
    name ${text} not null,
    name_sought ${text} not null,
    unit ${text},
    primary key (pack_id, place)
);

-- What a search for a medium looks through: the levels of factors, and what stood in the trial the same for all.
create table word (
    pack_id ${text} not null references shared_trial (id),
    kind ${text} not null check (kind in ('level', 'condition')),
    place integer not null,
    name ${text} not null,
    value ${text} not null,
    value_sought ${text} not null,
    primary key (pack_id, kind, place)
);

create table contribution (
    pack_id ${text} not null primary key references shared_trial (id),
    version integer not null,
    content ${text} not null
);

-- Apart from the trials, so that lists never touch it.
create table pack (
    pack_id ${text} not null primary key references shared_trial (id),
    packing ${text} not null check (packing in ('gzip', 'plain')),
    content ${bytes} not null
);
