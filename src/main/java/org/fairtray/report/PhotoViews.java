package org.fairtray.report;

import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.fairtray.report.pages.PhotoView;
import org.fairtray.trial.Layout;
import org.fairtray.trial.ShownPhoto;
import org.fairtray.trial.Tray;

/** Photos as they stand in the report, each with what its tray got. */
final class PhotoViews {
    private final Names names;
    private final Map<String, Tray> trays;

    PhotoViews(Names names, Layout layout) {
        this.names = names;
        this.trays = layout.trays().stream().collect(Collectors.toMap(Tray::code, Function.identity()));
    }

    List<PhotoView> of(List<Picture> pictures) {
        return pictures.stream().map(this::view).toList();
    }

    private PhotoView view(Picture picture) {
        var photo = picture.photo();
        if (!picture.missing().isEmpty()) {
            return new PhotoView("", about(photo), "This photo can’t be shown: " + picture.missing() + ".");
        }
        var source = "data:image/jpeg;base64," + Base64.getEncoder().encodeToString(picture.jpeg());
        return new PhotoView(source, about(photo), photo.words());
    }

    private String about(ShownPhoto photo) {
        var got = Optional.ofNullable(trays.get(photo.tray()))
                .map(t -> ": " + names.treatment(t.treatment().levels()))
                .orElse("");
        return "Tray " + photo.tray() + " on day " + photo.day() + got;
    }
}
