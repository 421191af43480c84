namespace Broodtide.Looking;

/// <summary>Reads the sets with a known truth; the reach of a mark is the one the baselines were measured with.</summary>
public static class Scenes
{
    /// <summary>Photos in images/, what is in them in truth.csv and centroids.csv; 0.7 object radii, at least 4 px.</summary>
    public static IReadOnlyList<Scene> Photos(string folder)
    {
        var (truth, centres) = (
            Table.Read(Path.Combine(folder, "truth.csv")),
            Table.Read(Path.Combine(folder, "centroids.csv"))
        );
        var spots = centres.Rows.ToLookup(
            row => centres.Text(row, "file"),
            row => new TrueSpot(
                centres.Number(row, "x_px"),
                centres.Number(row, "y_px"),
                Math.Max(4, 0.7 * Math.Sqrt(centres.Number(row, "area_px") / Math.PI))
            )
        );
        return
        [
            .. truth.Rows.Select(row =>
            {
                var file = truth.Text(row, "file");
                return new Scene(
                    file,
                    (int)truth.Number(row, "count"),
                    [new(Path.Combine(folder, "images", file), [.. spots[file]])]
                );
            }),
        ];
    }

    /// <summary>Frames SCENE_fN.jpg, what is in them in truth.csv and positions.csv; half a larva and 2 px.</summary>
    public static IReadOnlyList<Scene> Bursts(string folder)
    {
        var (truth, places) = (
            Table.Read(Path.Combine(folder, "truth.csv")),
            Table.Read(Path.Combine(folder, "positions.csv"))
        );
        return
        [
            .. truth.Rows.Select(row =>
            {
                var name = truth.Text(row, "scene");
                var pixels = truth.Number(row, "px_per_mm");
                var spots = places
                    .Rows.Where(place => places.Text(place, "scene") == name)
                    .ToLookup(
                        place => (int)places.Number(place, "frame"),
                        place => new TrueSpot(
                            places.Number(place, "x_px"),
                            places.Number(place, "y_px"),
                            (places.Number(place, "length_um") / 1000 * pixels / 2) + 2
                        )
                    );
                var frames = Enumerable
                    .Range(1, (int)truth.Number(row, "frames"))
                    .Select(frame => new Frame(
                        Path.Combine(folder, $"{name}_f{frame}.jpg"),
                        [.. spots[frame]]
                    ));
                return new Scene(name, (int)truth.Number(row, "count"), [.. frames]);
            }),
        ];
    }
}
