package org.fairtray.files;

import java.util.List;
import java.util.stream.Collectors;

/** The trial's files can't be read or written: everything that is wrong with them. */
public final class ProblemsException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    ProblemsException(List<Problem> problems) {
        super(problems.stream().map(Problem::describe).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    public ProblemsException(Problem problem) {
        this(List.of(problem));
    }

    /** One or more, file by file, by line. */
    public List<Problem> problems() {
        return problems;
    }
}
