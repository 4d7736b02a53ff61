package org.fairtray.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.archive.SharedTrial.Condition;
import org.fairtray.archive.SharedTrial.Varied;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** What is asked of the tables, one page after the other: by title, then by id. */
final class Reading {
    private static final int PAGE = 200;

    private final Handle handle;

    Reading(Handle handle) {
        this.handle = handle;
    }

    /** Where a page ended: the next begins behind it. */
    record Place(String titleSought, String id) {
        /** Before all of them. */
        static final Place START = new Place("", "");
    }

    /** Some of what is asked for, and where it ended; none where there is no more. */
    record Page<T>(List<T> content, Place end) {}

    Page<Listed> trials(Search search, Place after) {
        var rows = sought("s.*", "", search, after)
                .map((row, context) -> Row.of(row))
                .list();
        if (rows.isEmpty()) {
            return new Page<>(List.of(), after);
        }
        var details = new Details(handle, rows.stream().map(Row::id).toList());
        var last = rows.get(rows.size() - 1);
        return new Page<>(rows.stream().map(r -> r.with(details)).toList(), new Place(last.titleSought(), last.id()));
    }

    Page<Brought> contributions(Search search, Place after) {
        var ends = new ArrayList<Place>();
        var content = sought(
                        "s.id, s.trial_id, s.title, s.title_sought, s.farm, c.version, c.content",
                        " join contribution c on c.pack_id = s.id",
                        search,
                        after)
                .map((row, context) -> {
                    ends.add(new Place(row.getString("title_sought"), row.getString("id")));
                    return new Brought(
                            row.getString("id"),
                            row.getString("trial_id"),
                            row.getString("title"),
                            Optional.ofNullable(row.getString("farm")),
                            row.getInt("version"),
                            row.getString("content"));
                })
                .list();
        return new Page<>(content, content.isEmpty() ? after : ends.get(ends.size() - 1));
    }

    private Query sought(String columns, String joined, Search search, Place after) {
        var bound = new HashMap<String, String>();
        var where = new StringBuilder(" where (s.title_sought, s.id) > (:afterTitle, :afterId)");
        where.append(search.withdrawn() ? " and s.withdrawn is not null" : " and s.withdrawn is null");
        search.crop().ifPresent(words -> {
            where.append(" and s.crop_sought like :crop escape '!'");
            bound.put("crop", Words.anywhere(words));
        });
        search.word().ifPresent(words -> {
            where.append(" and s.title_sought like :word escape '!'");
            bound.put("word", Words.anywhere(words));
        });
        search.protocol().ifPresent(hash -> {
            where.append(" and s.protocol = :protocol");
            bound.put("protocol", hash);
        });
        search.factor().ifPresent(words -> {
            where.append(" and exists (select 1 from factor f where f.pack_id = s.id"
                    + " and f.name_sought like :factor escape '!')");
            bound.put("factor", Words.anywhere(words));
        });
        search.medium().ifPresent(words -> {
            where.append(" and exists (select 1 from word w where w.pack_id = s.id"
                    + " and w.value_sought like :medium escape '!')");
            bound.put("medium", Words.anywhere(words));
        });
        var query = handle.createQuery("select " + columns + " from shared_trial s" + joined + where
                        + " order by s.title_sought, s.id limit " + PAGE)
                .bind("afterTitle", after.titleSought())
                .bind("afterId", after.id());
        bound.forEach(query::bind);
        return query;
    }

    /** The ids that begin so, and their titles; a few are enough to say that there are several. */
    List<Listed> beginning(String beginning) {
        var rows = handle.createQuery(
                        "select s.* from shared_trial s where s.id >= :from and s.id < :to order by s.id limit 20")
                .bind("from", beginning)
                .bind("to", Id.behind(beginning))
                .map((row, context) -> Row.of(row))
                .list();
        if (rows.isEmpty()) {
            return List.of();
        }
        var details = new Details(handle, rows.stream().map(Row::id).toList());
        return rows.stream().map(r -> r.with(details)).toList();
    }

    Optional<Kept> known(String id) {
        return handle.createQuery("select withdrawn from shared_trial where id = :id")
                .bind("id", id)
                .map((row, context) -> row.getString("withdrawn") == null ? Kept.THERE : Kept.WITHDRAWN)
                .findOne();
    }

    /** A pack as it lies in its table. */
    record Stored(Packing packing, byte[] content) {}

    Optional<Stored> pack(String id) {
        return handle.createQuery("select packing, content from pack where pack_id = :id")
                .bind("id", id)
                .map((row, context) -> new Stored(Packing.of(row.getString("packing")), row.getBytes("content")))
                .findOne();
    }

    /** A line of shared_trial. */
    private record Row(
            String id, String titleSought, SharedTrial bare, Instant added, Optional<Listed.Withdrawal> gone) {
        static Row of(ResultSet row) throws SQLException {
            var id = row.getString("id");
            var gone = Optional.ofNullable(row.getString("withdrawn"));
            var why = row.getString("withdrawn_why");
            var bare = new SharedTrial(
                    id,
                    row.getString("trial_id"),
                    row.getString("title"),
                    row.getString("crop"),
                    row.getString("question"),
                    row.getInt("trays"),
                    row.getString("outcome"),
                    row.getBoolean("sealed"),
                    row.getString("version"),
                    row.getString("protocol"),
                    Optional.ofNullable(row.getString("farm")),
                    List.of(),
                    List.of());
            return new Row(
                    id,
                    row.getString("title_sought"),
                    bare,
                    Instant.parse(row.getString("added")),
                    gone.map(at -> new Listed.Withdrawal(Instant.parse(at), why)));
        }

        Listed with(Details details) {
            return new Listed(bare.with(details.factors(id), details.conditions(id)), added, gone);
        }
    }

    /** Factors, levels and conditions of the trials of one page. */
    private static final class Details {
        private record Word(String kind, String name, String value) {}

        private record Factor(String name, Optional<String> unit) {}

        private final Map<String, List<Word>> words = new HashMap<>();
        private final Map<String, List<Factor>> factors = new HashMap<>();

        Details(Handle handle, List<String> ids) {
            handle.createQuery(
                            "select pack_id, name, unit from factor where pack_id in (<ids>) order by pack_id, place")
                    .bindList("ids", ids)
                    .map((row, context) -> factors.computeIfAbsent(row.getString("pack_id"), id -> new ArrayList<>())
                            .add(new Factor(row.getString("name"), Optional.ofNullable(row.getString("unit")))))
                    .list();
            handle.createQuery(
                            "select pack_id, kind, name, value from word where pack_id in (<ids>) order by pack_id, place")
                    .bindList("ids", ids)
                    .map((row, context) -> words.computeIfAbsent(row.getString("pack_id"), id -> new ArrayList<>())
                            .add(new Word(row.getString("kind"), row.getString("name"), row.getString("value"))))
                    .list();
        }

        List<Varied> factors(String id) {
            return factors.getOrDefault(id, List.of()).stream()
                    .map(f -> new Varied(
                            f.name(),
                            f.unit(),
                            words.getOrDefault(id, List.of()).stream()
                                    .filter(w ->
                                            w.kind().equals("level") && w.name().equals(f.name()))
                                    .map(Word::value)
                                    .toList()))
                    .toList();
        }

        List<Condition> conditions(String id) {
            return words.getOrDefault(id, List.of()).stream()
                    .filter(w -> w.kind().equals("condition"))
                    .map(w -> new Condition(w.name(), w.value()))
                    .toList();
        }
    }
}
