package org.fairtray.journal;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFolder;

/**
 * The journal of one trial: a file that only ever grows, and that no other bench may open meanwhile. What
 * {@link #append} returned is on disk. A last line that was written in part, because the computer stopped, was never
 * acknowledged; it is taken off when the file is opened. Any other damage is refused. Where the folder can't be written to
 * the journal can still be read, and takes no entry.
 */
public final class JournalFile implements Closeable {
    /** What is said where nothing can be written. */
    public static final String READ_ONLY =
            "readings.journal can't be written in this trial's folder, so nothing can be kept."
                    + " What is there is shown. Give the one who runs the bench leave to write there.";

    private static final String NAME = TrialFolder.JOURNAL;

    private final FileChannel channel;
    private final Clock clock;
    private long length;
    private long last;
    private final boolean readOnly;
    private boolean broken;

    /** @param channel none where there is no journal, and none can be made */
    private JournalFile(FileChannel channel, Clock clock, boolean readOnly) {
        this.channel = channel;
        this.clock = clock;
        this.readOnly = readOnly;
    }

    /**
     * Opens the journal of a folder; makes one if there is none, and the folder can be written to.
     *
     * @param replay is given every entry, in order
     * @throws ProblemsException if it is damaged before its last line, another bench has it open, or it can't be read
     */
    public static JournalFile open(Path folder, Clock clock, Consumer<Entry> replay) {
        var file = folder.resolve(NAME);
        FileChannel channel = null;
        try {
            boolean readOnly = !mayWrite(folder);
            if (!readOnly) {
                channel = FileChannel.open(
                        file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
            } else if (Files.exists(file)) {
                channel = FileChannel.open(file, StandardOpenOption.READ);
            }
            var journal = new JournalFile(channel, clock, readOnly);
            if (channel != null) {
                lock(channel, readOnly);
                journal.replay(replay);
            }
            return journal;
        } catch (IOException e) {
            close(channel);
            throw problem(0, "a file that can't be opened (" + e.getMessage() + ")", "a file you may read and write");
        } catch (ProblemsException e) {
            close(channel);
            throw e;
        }
    }

    /** Whether entries can be written in a folder: into its journal, or one that is made there. */
    public static boolean mayWrite(Path folder) {
        var file = folder.resolve(NAME);
        return Files.isWritable(Files.exists(file) ? file : folder);
    }

    /**
     * Takes away a journal that says nothing but for which layout it was begun, so that it isn't kept as if it held counts.
     * One that is damaged, or that another bench has open, stays.
     */
    public static void takeAwayUnused(Path folder) {
        var entries = new ArrayList<Entry>();
        try {
            if (Files.exists(folder.resolve(NAME)) && mayWrite(folder)) {
                open(folder, Clock.systemUTC(), entries::add).close();
                if (entries.stream().allMatch(e -> e.event() instanceof Event.Began)) {
                    Files.delete(folder.resolve(NAME));
                }
            }
        } catch (IOException | ProblemsException e) {
            // Whoever writes a layout next sets the journal aside, or says why that can't be.
            return;
        }
    }

    private static void lock(FileChannel channel, boolean readOnly) throws IOException {
        FileLock lock;
        try {
            lock = channel.tryLock(0, Long.MAX_VALUE, readOnly);
        } catch (OverlappingFileLockException e) {
            lock = null;
        }
        if (lock == null) {
            throw problem(0, "a journal that another bench has open", "one bench for a trial; stop the other first");
        }
    }

    private static void close(FileChannel channel) {
        if (channel != null) {
            try {
                channel.close();
            } catch (IOException e) {
                // Nothing was written through it.
                return;
            }
        }
    }

    private void replay(Consumer<Entry> replay) throws IOException {
        byte[] bytes = read();
        int start = 0;
        int line = 0;
        while (start < bytes.length) {
            line++;
            int end = start;
            while (end < bytes.length && bytes[end] != '\n') {
                end++;
            }
            var entry = EntryText.entry(new String(bytes, start, end - start, StandardCharsets.UTF_8))
                    .filter(e -> e.number() == last + 1);
            boolean whole = entry.isPresent() && end < bytes.length;
            if (!whole) {
                if (end + 1 < bytes.length) {
                    throw problem(line, "a damaged line", "the line as it was written; put a copy of the file back");
                }
                if (!readOnly) {
                    channel.truncate(start);
                    channel.force(true);
                }
                break;
            }
            last++;
            replay.accept(entry.get());
            start = end + 1;
        }
        length = channel.size();
    }

    private byte[] read() throws IOException {
        var buffer = ByteBuffer.allocate(Math.toIntExact(channel.size()));
        channel.position(0);
        int read = 0;
        while (buffer.hasRemaining() && read >= 0) {
            read = channel.read(buffer);
        }
        return buffer.array();
    }

    /** Whether it takes no entry because the folder can't be written to. */
    public boolean readOnly() {
        return readOnly;
    }

    /** The number of the newest entry; 0 where there is none. */
    public synchronized long last() {
        return last;
    }

    /**
     * Writes entries and forces them to disk, all or none.
     *
     * @return the entries, which are now kept
     * @throws NotKeptException if they can't be written; nothing of them is kept then
     */
    public synchronized List<Entry> append(List<Event> events) {
        if (readOnly) {
            throw new NotKeptException(READ_ONLY, null);
        }
        if (broken) {
            throw new NotKeptException(
                    "The journal couldn't be mended after a failed write. Start the bench anew.", null);
        }
        var time = clock.instant().truncatedTo(ChronoUnit.MILLIS);
        var entries = new ArrayList<Entry>();
        var text = new StringBuilder();
        for (var event : events) {
            var entry = new Entry(last + 1 + entries.size(), time, event);
            entries.add(entry);
            text.append(EntryText.line(entry)).append('\n');
        }
        byte[] bytes = text.toString().getBytes(StandardCharsets.UTF_8);
        try {
            write(bytes);
            channel.force(false);
        } catch (IOException e) {
            takeOff();
            throw new NotKeptException(
                    "It can't be written to disk (" + e.getMessage() + "). Make room on the disk; nothing is lost.", e);
        }
        length += bytes.length;
        last += entries.size();
        return entries;
    }

    private void write(byte[] bytes) throws IOException {
        var buffer = ByteBuffer.wrap(bytes);
        long at = length;
        while (buffer.hasRemaining()) {
            at += channel.write(buffer, at);
        }
    }

    /** Takes off what a failed write left, so that the next one doesn't follow half a line. */
    private void takeOff() {
        try {
            channel.truncate(length);
            channel.force(true);
        } catch (IOException e) {
            broken = true;
        }
    }

    @Override
    public void close() throws IOException {
        if (channel != null) {
            channel.close();
        }
    }

    private static ProblemsException problem(int line, String found, String expected) {
        return new ProblemsException(new Problem(NAME, line, found, expected, Optional.empty()));
    }
}
