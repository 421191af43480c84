namespace Broodtide.Phone.Pictures;

/// <summary>The words of the frame: zones, scale bar, lanes.</summary>
internal static class TideQuietWords
{
    private const double NowAtLeft = 80;
    private const double RoomForEntries = 56;

    public static void Zones(TideScene scene, WordPlacer words)
    {
        var fresh = scene.Y(scene.Record.Zones.FreshBelowPpt);
        var sea = scene.Y(scene.Record.Zones.SeaFromPpt);
        var x = scene.HasFuture && scene.NowX < NowAtLeft ? scene.NowX + 8 : 8;
        void Name(string text, double y) =>
            words.TryPlace([new(text, "pic-word pic-quiet")], [new(x, y, WordAnchor.Start)]);
        Name(scene.Text.Fresh, scene.Sizes.Top + 15);
        Name(scene.Text.Brackish, ((fresh + sea) / 2) + 4);
        Name(scene.Text.Sea, sea + 16);
    }

    public static void ScaleBar(TideScene scene, WordPlacer words)
    {
        var most = scene.Sizes.Keel / scene.PxPerLarva;
        var rows = TideKeelPart.RowsOf(scene);
        if (rows.Count == 0 || scene.Main is not { } main || most < 1)
        {
            return;
        }

        var round = RoundNumber(most);
        var height = round * scene.PxPerLarva;
        var text = scene.Text.Larvae(round);
        var wide = WordWidths.Of(text, "");
        var keel = scene.X(rows[0].At);
        var beside = Math.Min(scene.Calm(main, rows[0].At), scene.BedY - height - 8);
        var above = scene.Y(scene.Record.Zones.SeaFromPpt) + 26;
        foreach (
            var (x, top) in new[]
            {
                (18, beside),
                (scene.Width - wide - 14, beside),
                (18, above),
                (scene.NowX + 12, above),
            }
        )
        {
            var isBeside = top == beside;
            var isClear = !isBeside || keel > x + wide + 12 || (x > scene.NowX && rows[^1].At < scene.At(x));
            // Above the line it keeps clear of the forecast's band too.
            var bar = new Box(x - 3, top, x + 7 + wide, top + height + (isBeside ? 0 : 14));
            var middle = top + (height / 2) + 4;
            if (
                isClear
                && words.IsFree(bar)
                && words.TryPlace([new(text, "pic-word pic-quiet")], [new(x + 7, middle, WordAnchor.Start)])
            )
            {
                scene.Add(
                    new PathShape("pic-bar", new PathPen().StandingBar(x, top, top + height, 3).ToString())
                );
                return;
            }
        }
    }

    // One, two or five times a power of ten, the greatest under six tenths of the keel.
    private static double RoundNumber(double most)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(most)));
        double[] steps = [power / 2, power, 2 * power, 5 * power];
        return Math.Max(1, steps.Where(step => step <= 0.6 * most + 1e-9 || step <= power / 2).Max());
    }

    public static void Lanes(TideScene scene, WordPlacer words)
    {
        if (scene.HasStages && scene.X(scene.Record.Stages[0].At) > 50)
        {
            var y = (scene.BedY + scene.StageBottom) / 2;
            words.TryPlace([new(scene.Text.Stage, "pic-word pic-quiet")], [new(8, y + 4, WordAnchor.Start)]);
        }

        if (scene.Frame.Zoom != TideZoom.WholeRun)
        {
            foreach (var stave in Enum.GetValues<TideStave>())
            {
                var isRoom =
                    scene.HasFuture
                    || !scene.Record.Entries.Any(entry =>
                        scene.X(entry.At) > scene.Width - RoomForEntries && scene.X(entry.At) < scene.Width
                    );
                var y = TideEntriesPart.StaveY(scene, stave) + 4;
                words.TryPlace(
                    [new(scene.Text.Stave(stave), "pic-word pic-quiet")],
                    scene.HasFuture
                            ?
                            [
                                new(scene.NowX + 8, y, WordAnchor.Start),
                                new(scene.Width - 8, y, WordAnchor.End),
                            ]
                        : isRoom ? [new(scene.Width - 8, y, WordAnchor.End)]
                        : []
                );
            }
        }
        else if (
            scene.Record.Entries.Count > 0
            && (
                scene.HasFuture
                || scene.X(scene.Record.Entries.Max(entry => entry.At)) < scene.Width - RoomForEntries
            )
        )
        {
            var y = scene.BorderY - 6.5;
            words.TryPlace(
                [new(scene.Text.Entries, "pic-word pic-quiet")],
                [
                    scene.HasFuture
                        ? new(scene.NowX + 7, y, WordAnchor.Start)
                        : new(scene.Width - 8, y, WordAnchor.End),
                ]
            );
        }
    }
}
