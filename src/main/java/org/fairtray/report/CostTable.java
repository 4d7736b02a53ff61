package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.List;
import org.fairtray.findings.Cost;
import org.fairtray.report.pages.Table;

/** What seedlings cost with each treatment. */
final class CostTable {
    private final Names names;
    private final List<Cost> costs;
    private final String id;

    CostTable(Names names, List<Cost> costs, String id) {
        this.names = names;
        this.costs = costs;
        this.id = id;
    }

    /** The table; none where the plan gives no costs. */
    List<Table> all() {
        return costs.isEmpty() ? List.of() : List.of(table());
    }

    private Table table() {
        var currency = costs.get(0).currency();
        var unit = currency == null ? "" : ", " + currency;
        return new Table(
                id + "-table-costs",
                "What a thousand seedlings cost",
                "Tray, seed and labour, shared among the seedlings that came out. Where two intervals overlap widely, don’t"
                        + " choose by price alone.",
                List.of(
                        text("Treatment"),
                        number("A tray" + unit),
                        number("Seedlings from a tray"),
                        number("A thousand seedlings" + unit),
                        number(names.sure() + " interval" + unit)),
                costs.stream().map(this::row).toList());
    }

    private List<String> row(Cost cost) {
        return List.of(
                names.treatment(cost.treatment()),
                Digits.fixed(cost.perTray(), 2),
                Digits.fixed(cost.seedlingsPerTray(), 0),
                cost.perThousand() == null ? "none came out" : Digits.fixed(cost.perThousand(), 2),
                Digits.openRange(Digits.fixed(cost.low(), 2), Digits.fixed(cost.high(), 2)));
    }
}
