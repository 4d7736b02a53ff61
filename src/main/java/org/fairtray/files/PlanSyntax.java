package org.fairtray.files;

import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionEndEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.DocumentStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;

/**
 * The YAML of a plan: one document without anchors, aliases and tags, of bearable size and depth. Looked through event by
 * event before it is composed, because composing follows aliases and runs as deep as the file goes.
 */
final class PlanSyntax {
    private static final int LARGEST = 1 << 20;
    private static final int DEEPEST = 20;
    private static final LoadSettings SETTINGS = LoadSettings.builder()
            .setAllowDuplicateKeys(true)
            .setCodePointLimit(LARGEST)
            .build();

    private final Problems problems;
    private int depth;
    private int documents;

    private PlanSyntax(Problems problems) {
        this.problems = problems;
    }

    /**
     * The plan's outermost value.
     *
     * @throws ProblemsException if the text isn't such YAML
     */
    static PlanValue root(StoredFile file, Problems problems) {
        if (file.size() > LARGEST) {
            problems.add(0, "a file of more than 1 megabyte", "a plan of less");
            problems.throwIfAny();
        }
        var text = file.text();
        refuseControls(text, problems);
        try {
            new PlanSyntax(problems).look(text);
            problems.throwIfAny();
            var root = new Compose(SETTINGS).composeString(text);
            return new PlanValue("the plan", compact(root, problems), 0, problems);
        } catch (MarkedYamlEngineException e) {
            throw broken(e, problems);
        } catch (YamlEngineException e) {
            problems.add(0, "text that isn't YAML (" + Wording.visible(e.getMessage()) + ")", "key: value lines");
            throw new ProblemsException(problems.byLine());
        }
    }

    private static Node compact(Optional<Node> root, Problems problems) {
        return root.orElseThrow(() -> {
            problems.add(0, "an empty file", "a plan that begins with format: 1");
            return new ProblemsException(problems.byLine());
        });
    }

    private static ProblemsException broken(MarkedYamlEngineException e, Problems problems) {
        int line =
                e.getProblemMark().or(e::getContextMark).map(PlanSyntax::line).orElse(0);
        if (e.getProblem().contains("TAB")) {
            problems.add(line, "a tab", "spaces: YAML is indented with them");
            return new ProblemsException(problems.byLine());
        }
        problems.add(
                line,
                "text that isn't YAML (" + Wording.visible(e.getProblem()) + ")",
                "'key: value', indented with spaces; text with ': ', '#' or quotes in it stands in quotes");
        return new ProblemsException(problems.byLine());
    }

    private static void refuseControls(String text, Problems problems) {
        int line = 1;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            line += c == '\n' ? 1 : 0;
            if (Character.isISOControl(c) && "\n\r\t\u0085".indexOf(c) < 0) {
                problems.add(line, "the control character " + Wording.quote(String.valueOf(c)), "text only");
            }
        }
        problems.throwIfAny();
    }

    private void look(String text) {
        for (Event event : new Parse(SETTINGS).parseString(text)) {
            int line = event.getStartMark().map(PlanSyntax::line).orElse(0);
            lookAt(event, line);
            if (depth > DEEPEST) {
                problems.add(line, "lists and keys more than " + DEEPEST + " deep", "a flatter plan");
                return;
            }
        }
    }

    private void lookAt(Event event, int line) {
        if (event instanceof DocumentStartEvent && ++documents == 2) {
            problems.add(line, "a second document, after '---'", "one plan in the file");
        } else if (event instanceof CollectionEndEvent) {
            depth--;
        } else if (event instanceof NodeEvent node) {
            lookAt(node, line);
        }
    }

    private void lookAt(NodeEvent node, int line) {
        if (node instanceof AliasEvent) {
            problems.add(line, "an alias, '*...'", "the value itself, written out; a text with * stands in quotes");
        } else if (node.getAnchor().isPresent()) {
            problems.add(line, "an anchor, '&...'", "the value alone; a text with & stands in quotes");
        }
        if (tag(node).isPresent()) {
            problems.add(line, "a tag, '!...'", "the value alone; a text with ! stands in quotes");
        }
        depth += node instanceof CollectionStartEvent ? 1 : 0;
    }

    private static Optional<String> tag(NodeEvent node) {
        if (node instanceof ScalarEvent scalar) {
            return scalar.getTag();
        }
        return node instanceof CollectionStartEvent collection ? collection.getTag() : Optional.empty();
    }

    static int line(Mark mark) {
        return mark.getLine() + 1;
    }
}
