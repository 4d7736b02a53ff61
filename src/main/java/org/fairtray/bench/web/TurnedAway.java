package org.fairtray.bench.web;

/** Someone or something isn't let in; what they are told is the answer. */
final class TurnedAway extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient Answer answer;

    TurnedAway(Answer answer) {
        super("turned away");
        this.answer = answer;
    }

    TurnedAway(int status, String reason) {
        this(Answer.refusal(status, reason));
    }

    Answer answer() {
        return answer;
    }
}
