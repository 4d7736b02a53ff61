package org.fairtray.archive;

import java.util.List;
import org.fairtray.archive.SharedTrial.Condition;
import org.fairtray.archive.SharedTrial.Varied;
import org.jdbi.v3.core.Handle;

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
     * Adds a trial that isn't there.
     *
     * @param now the time, as it is stored
     * @param bringBack whether one that was withdrawn is added again
     */
    Kept add(Ready ready, String now, boolean bringBack) {
        var trial = ready.deposit().trial();
        boolean isNew = told(
                "insert into shared_trial (id, " + COLUMNS + ") values (:id, " + VALUES
                        + ") on conflict (id) do nothing",
                trial,
                now);
        if (!isNew) {
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
        }
        addFactors(trial);
        addWords(trial);
        addContents(ready);
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

    private void addFactors(SharedTrial trial) {
        if (trial.factors().isEmpty()) {
            return;
        }
        var batch = handle.prepareBatch("insert into factor (pack_id, place, name, name_sought, unit)"
                + " values (:id, :place, :name, :sought, :unit)");
        for (int place = 0; place < trial.factors().size(); place++) {
            var factor = trial.factors().get(place);
            batch.bind("id", trial.id())
                    .bind("place", place)
                    .bind("name", factor.name())
                    .bind("sought", Words.sought(factor.name()))
                    .bind("unit", factor.unit().orElse(null))
                    .add();
        }
        batch.execute();
    }

    private void addWords(SharedTrial trial) {
        var batch = handle.prepareBatch("insert into word (pack_id, kind, place, name, value, value_sought)"
                + " values (:id, :kind, :place, :name, :value, :sought)");
        int place = 0;
        for (Varied factor : trial.factors()) {
            for (var level : factor.levels()) {
                batch.bind("id", trial.id())
                        .bind("kind", "level")
                        .bind("place", place++)
                        .bind("name", factor.name())
                        .bind("value", level)
                        .bind("sought", Words.sought(level))
                        .add();
            }
        }
        for (Condition condition : trial.conditions()) {
            batch.bind("id", trial.id())
                    .bind("kind", "condition")
                    .bind("place", place++)
                    .bind("name", condition.name())
                    .bind("value", condition.value())
                    .bind("sought", Words.sought(condition.value()))
                    .add();
        }
        if (batch.size() > 0) {
            batch.execute();
        }
    }

    private void addContents(Ready ready) {
        var id = ready.deposit().trial().id();
        handle.createUpdate("insert into contribution (pack_id, version, content) values (:id, :version, :content)")
                .bind("id", id)
                .bind("version", ready.deposit().contributionVersion())
                .bind("content", ready.deposit().contribution())
                .execute();
        handle.createUpdate("insert into pack (pack_id, packing, content) values (:id, :packing, :content)")
                .bind("id", id)
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
