package org.fairtray.files;

import java.util.List;
import java.util.stream.Collectors;

/** The trial's files can't be read or written: everything that is wrong with them. */
public final class ProblemsException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    public ProblemsException(List<Problem> problems) {
        super(problems.stream().map(Problem::describe).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    public ProblemsException(Problem problem) {
        this(List.of(problem));
    }

    /** The same problems, each file named with the folder it lies in: where several trials are read at once. */
    public ProblemsException in(String folder) {
        return new ProblemsException(problems.stream()
                .map(p -> p.file().startsWith(folder)
                        ? p
                        : new Problem(folder + "/" + p.file(), p.line(), p.found(), p.expected(), p.nearest()))
                .toList());
    }

    /** One or more, file by file, by line. */
    public List<Problem> problems() {
        return problems;
    }
}
