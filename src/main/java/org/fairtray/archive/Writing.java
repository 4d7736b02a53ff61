package org.fairtray.archive;

import java.util.ArrayList;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;

/** What is written into the tables; whoever calls has begun a transaction. */
final class Writing {
    private static final String COLUMNS = "trial_id, title, title_sought, crop, crop_sought, question, trays, outcome,"
            + " sealed, version, protocol, farm, added";
    private static final String VALUES = ":trialId, :title, :titleSought, :crop, :cropSought, :question, :trays,"
            + " :outcome, :sealed, :version, :protocol, :farm, :added";

    private final Handle handle;

    Writing(Handle handle) {
        this.handle = handle;
    }

    /** A deposit made ready outside the transaction, so that others wait less. */
    record Ready(Deposit deposit, Packing packing, byte[] packed) {
        static Ready of(Deposit deposit) {
            var pack = deposit.pack();
            var packing = Packing.worthFor(pack);
            return new Ready(deposit, packing, packing.packed(pack));
        }
    }

    /**
     * Adds the trials that aren't there.
     *
     * @param now the time, as it is stored
     * @param bringBack whether those that were withdrawn are added again
     * @return what came of each
     */
    List<Kept> add(List<Ready> all, String now, boolean bringBack) {
        var kept = new ArrayList<Kept>();
        var added = new ArrayList<Deposit>();
        for (var ready : all) {
            var trial = ready.deposit().trial();
            var came = add(trial, now, bringBack);
            kept.add(came);
            if (came == Kept.ADDED) {
                added.add(ready.deposit());
                addPack(ready);
            }
        }
        addFactors(added);
        addWords(added);
        addContributions(added);
        return kept;
    }

    private Kept add(SharedTrial trial, String now, boolean bringBack) {
        boolean isNew = told(
                "insert into shared_trial (id, " + COLUMNS + ") values (:id, " + VALUES
                        + ") on conflict (id) do nothing",
                trial,
                now);
        if (isNew) {
            return Kept.ADDED;
        }
        if (!isWithdrawn(trial.id())) {
            return Kept.THERE;
        }
        if (!bringBack) {
            return Kept.WITHDRAWN;
        }
        told(
                "update shared_trial set (" + COLUMNS + ", withdrawn, withdrawn_why) = (" + VALUES
                        + ", null, null) where id = :id",
                trial,
                now);
        return Kept.ADDED;
    }

    private boolean told(String sql, SharedTrial trial, String now) {
        return handle.createUpdate(sql)
                        .bind("id", trial.id())
                        .bind("trialId", trial.trialId())
                        .bind("title", trial.title())
                        .bind("titleSought", Words.sought(trial.title()))
                        .bind("crop", trial.crop())
                        .bind("cropSought", Words.sought(trial.crop()))
                        .bind("question", trial.question())
                        .bind("trays", trial.trays())
                        .bind("outcome", trial.outcome())
                        .bind("sealed", trial.sealed())
                        .bind("version", trial.version())
                        .bind("protocol", trial.protocol())
                        .bind("farm", trial.farm().orElse(null))
                        .bind("added", now)
                        .execute()
                > 0;
    }

    /** Locks the line as well, so that nobody else brings the trial back meanwhile. */
    private boolean isWithdrawn(String id) {
        return handle.createUpdate(
                                "update shared_trial set withdrawn = withdrawn where id = :id and withdrawn is not null")
                        .bind("id", id)
                        .execute()
                > 0;
    }

    private void addFactors(List<Deposit> added) {
        var batch = handle.prepareBatch("insert into factor (pack_id, place, name, name_sought, unit)"
                + " values (:id, :place, :name, :sought, :unit)");
        for (var deposit : added) {
            int place = 0;
            for (var factor : deposit.trial().factors()) {
                batch.bind("id", deposit.trial().id())
                        .bind("place", place++)
                        .bind("name", factor.name())
                        .bind("sought", Words.sought(factor.name()))
                        .bind("unit", factor.unit().orElse(null))
                        .add();
            }
        }
        execute(batch);
    }

    private void addWords(List<Deposit> added) {
        var batch = handle.prepareBatch("insert into word (pack_id, kind, place, name, value, value_sought)"
                + " values (:id, :kind, :place, :name, :value, :sought)");
        for (var deposit : added) {
            var id = deposit.trial().id();
            int place = 0;
            for (var factor : deposit.trial().factors()) {
                for (var level : factor.levels()) {
                    addWord(batch, id, "level", place++, factor.name(), level);
                }
            }
            for (var condition : deposit.trial().conditions()) {
                addWord(batch, id, "condition", place++, condition.name(), condition.value());
            }
        }
        execute(batch);
    }

    private static void addWord(PreparedBatch batch, String id, String kind, int place, String name, String value) {
        batch.bind("id", id)
                .bind("kind", kind)
                .bind("place", place)
                .bind("name", name)
                .bind("value", value)
                .bind("sought", Words.sought(value))
                .add();
    }

    private void addContributions(List<Deposit> added) {
        var batch = handle.prepareBatch(
                "insert into contribution (pack_id, version, content) values (:id, :version, :content)");
        for (var deposit : added) {
            batch.bind("id", deposit.trial().id())
                    .bind("version", deposit.contributionVersion())
                    .bind("content", deposit.contribution())
                    .add();
        }
        execute(batch);
    }

    private static void execute(PreparedBatch batch) {
        if (batch.size() > 0) {
            batch.execute();
        }
    }

    /** One by one: together they might not fit into memory twice. */
    private void addPack(Ready ready) {
        handle.createUpdate("insert into pack (pack_id, packing, content) values (:id, :packing, :content)")
                .bind("id", ready.deposit().trial().id())
                .bind("packing", Packing.word(ready.packing()))
                .bind("content", ready.packed())
                .execute();
    }

    /**
     * Takes a trial back: what it held is deleted, the line that it was there stays.
     *
     * @return whether it was there until now
     */
    boolean withdraw(String id, String reason, String now) {
        boolean first = handle.createUpdate("update shared_trial set withdrawn = :now, withdrawn_why = :reason,"
                                + " question = '', farm = null where id = :id and withdrawn is null")
                        .bind("now", now)
                        .bind("reason", reason)
                        .bind("id", id)
                        .execute()
                > 0;
        if (first) {
            for (var table : List.of("factor", "word", "contribution", "pack")) {
                handle.createUpdate("delete from " + table + " where pack_id = :id")
                        .bind("id", id)
                        .execute();
            }
        }
        return first;
    }
}
