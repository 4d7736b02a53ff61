package org.fairtray;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.GeneralCodingRules;
import com.tngtech.archunit.library.dependencies.SlicesRuleDefinition;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The map of the house in DEVELOPERS.md, held against the compiled classes, and the rules that go with it. */
class ArchitectureTest {
    private static final JavaClasses HOUSE = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.fairtray");

    private static final Pattern QUOTED = Pattern.compile("`([^`]+)`");

    /** Libraries by the start of their packages. The drawing part of the JDK is named too: it needs fonts and starts slowly. */
    private static final Map<String, String> LIBRARIES = Map.ofEntries(
            Map.entry("org.apache.commons.math3.", "Commons Math"),
            Map.entry("org.apache.commons.rng.", "Commons RNG"),
            Map.entry("org.apache.commons.compress.", "Commons Compress"),
            Map.entry("tech.tablesaw.", "Tablesaw"),
            Map.entry("org.snakeyaml.engine.", "snakeyaml-engine"),
            Map.entry("de.siegmar.fastcsv.", "fastcsv"),
            Map.entry("com.google.gson.", "gson"),
            Map.entry("org.jfree.", "JFreeChart"),
            Map.entry("org.apache.batik.", "Batik"),
            Map.entry("java.awt.", "AWT"),
            Map.entry("net.coobird.thumbnailator.", "Thumbnailator"),
            Map.entry("org.apache.pdfbox.", "PDFBox"),
            Map.entry("org.apache.fontbox.", "PDFBox"),
            Map.entry("com.google.zxing.", "ZXing"),
            Map.entry("gg.jte.", "jte"),
            Map.entry("org.eclipse.jetty.", "Jetty"),
            Map.entry("org.jdbi.", "JDBI"),
            Map.entry("org.flywaydb.", "Flyway"),
            Map.entry("org.sqlite.", "SQLite"),
            Map.entry("org.postgresql.", "PostgreSQL"),
            Map.entry("picocli.", "picocli"));

    /** What a room may use: other rooms, and libraries. */
    private record Uses(Set<String> rooms, Set<String> libraries) {
        Uses {
            rooms = new TreeSet<>(rooms);
            libraries = new TreeSet<>(libraries);
        }
    }

    @Test
    void everyRoomUsesWhatTheMapInDevelopersSaysAndNothingElse() throws IOException {
        assertEquals(mapInDevelopers(), mapOfTheCode());
    }

    /** The rows of the table whose first cell is the name of a room in quotes. */
    private static Map<String, Uses> mapInDevelopers() throws IOException {
        var map = new TreeMap<String, Uses>();
        var table = Files.readString(Path.of("DEVELOPERS.md"))
                .split("<!-- map -->", -1)[1]
                .split("<!-- end of map -->", -1)[0];
        for (var line : table.lines().filter(l -> l.startsWith("| `")).toList()) {
            var cells = line.split("\\|", -1);
            map.put(quoted(cells[1]).iterator().next(), new Uses(quoted(cells[3]), quoted(cells[4])));
        }
        return map;
    }

    private static Set<String> quoted(String cell) {
        var names = new TreeSet<String>();
        QUOTED.matcher(cell).results().forEach(r -> names.add(r.group(1)));
        return names;
    }

    private static Map<String, Uses> mapOfTheCode() {
        var map = new TreeMap<String, Uses>();
        for (var each : HOUSE) {
            var uses = map.computeIfAbsent(room(each), r -> new Uses(Set.of(), Set.of()));
            each.getDirectDependenciesFromSelf().stream()
                    .map(Dependency::getTargetClass)
                    .map(JavaClass::getBaseComponentType)
                    .filter(target -> !isOfTheLanguage(target))
                    .forEach(target -> {
                        if (!isOurs(target)) {
                            uses.libraries.add(library(target));
                        } else if (!room(target).equals(room(each))) {
                            uses.rooms.add(room(target));
                        }
                    });
        }
        return map;
    }

    private static boolean isOurs(JavaClass target) {
        return target.getPackageName().startsWith("org.fairtray");
    }

    private static boolean isOfTheLanguage(JavaClass target) {
        var name = target.getName();
        return target.isPrimitive()
                || (name.startsWith("java.") && !name.startsWith("java.awt."))
                || name.startsWith("javax.")
                || name.startsWith("org.w3c.dom.");
    }

    private static String library(JavaClass target) {
        return LIBRARIES.entrySet().stream()
                .filter(e -> target.getName().startsWith(e.getKey()))
                .map(Map.Entry::getValue)
                .findFirst()
                .orElse(target.getName());
    }

    /** The room of a class; what jte makes of the pages lies in a package of its own under their room. */
    private static String room(JavaClass one) {
        var name = one.getPackageName().substring("org.fairtray.".length());
        return name.startsWith("report.pages.") ? "report.pages" : name;
    }

    @Test
    void noRoomsUseEachOtherInACircle() {
        SlicesRuleDefinition.slices()
                .matching("org.fairtray.(**)")
                .should()
                .beFreeOfCycles()
                .check(HOUSE);
    }

    @Test
    void theInnerRoomsReadAndWriteNothing() {
        noClasses()
                .that()
                .resideInAnyPackage("org.fairtray.trial", "org.fairtray.statistics..", "org.fairtray.design")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.io..", "java.nio..", "java.net..")
                .check(HOUSE);
    }

    @Test
    void onlyTheProgramItselfTouchesTheStandardStreams() {
        noClasses()
                .that()
                .doNotHaveFullyQualifiedName("org.fairtray.command.Fairtray")
                .should(GeneralCodingRules.ACCESS_STANDARD_STREAMS)
                .check(HOUSE);
    }

    @Test
    void chanceComesFromTheSealedGeneratorAlone() {
        noClasses()
                .that()
                .doNotHaveFullyQualifiedName("org.fairtray.jobs.Laid")
                .and()
                .doNotHaveFullyQualifiedName("org.fairtray.bench.web.Secrets")
                .should()
                .dependOnClassesThat()
                .areAssignableTo(Random.class)
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(SplittableRandom.class)
                .orShould()
                .callMethod(Math.class, "random")
                .orShould()
                .callMethod(StrictMath.class, "random")
                .orShould()
                .callMethod(Collections.class, "shuffle", List.class)
                .orShould()
                .callMethod(Collections.class, "shuffle", List.class, Random.class)
                .check(HOUSE);
    }

    @Test
    void aSeedThatNobodyChoseComesFromTheSystem() {
        assertEquals(Set.of("java.security.SecureRandom"), randomness("org.fairtray.jobs.Laid"));
    }

    @Test
    void keysAndCodesComeFromTheSystem() {
        assertEquals(Set.of("java.security.SecureRandom"), randomness("org.fairtray.bench.web.Secrets"));
    }

    private static Set<String> randomness(String name) {
        return HOUSE.get(name).getDirectDependenciesFromSelf().stream()
                .map(d -> d.getTargetClass().getName())
                .filter(n -> n.contains("Random"))
                .filter(n -> !n.startsWith("org.fairtray"))
                .filter(n -> !n.startsWith("org.apache.commons.rng"))
                .collect(java.util.stream.Collectors.toSet());
    }

    @Test
    void noGenericExceptionIsThrown() {
        GeneralCodingRules.NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS.check(HOUSE);
    }
}
