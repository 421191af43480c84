using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>The words of what happens: crossings, return, ends, the hatch, the marks of the brood.</summary>
internal static class TideEventWords
{
    private const double LineHeight = 15;
    private const double NearNow = 60;
    private const double NowAtLeft = 80;

    public static void Crossings(TideScene scene, WordPlacer words)
    {
        if (scene.IsFolded && scene.Record.Crossings.Count > 0)
        {
            var told = new WordLine(scene.Text.Crossed(scene.Record), "pic-word");
            var y =
                (scene.Y(scene.Record.Zones.FreshBelowPpt) + scene.Y(scene.Record.Zones.SeaFromPpt)) / 2 + 4;
            words.TryPlace([told], [new(76, y, WordAnchor.Start), new(scene.NowX + 80, y, WordAnchor.Start)]);
            return;
        }

        foreach (var group in TideDivePart.Groups(scene))
        {
            WordLine[] block =
            [
                new(scene.Text.CrossingGroup(scene.Record, group, scene.IsWide), "pic-word pic-bold"),
                new(scene.Text.CrossingLarvae(group, scene.IsWide), "pic-word pic-slant"),
            ];
            var brackish = scene.Y(6) + 4;
            var sea = scene.Y(scene.Record.Zones.SeaFromPpt) + 16;
            var right = group.Last.X + 8;
            var left = group.First.X - 8;
            var fresh = scene.Sizes.Top + 16;
            WordPlace[] rightward =
            [
                new(right, brackish, WordAnchor.Start),
                new(right, scene.Y(9) + 4, WordAnchor.Start),
            ];
            WordPlace[] leftward =
            [
                new(left, sea, WordAnchor.End),
                new(left, sea + 20, WordAnchor.End),
                new(left - scene.Sizes.Dive, brackish, WordAnchor.End),
            ];
            WordPlace[] elsewhere =
            [
                new(right, sea, WordAnchor.Start),
                new(right, fresh, WordAnchor.Start),
                new(left, fresh, WordAnchor.End),
                new(scene.NowX + 8, brackish, WordAnchor.Start),
            ];
            // What was stands left of now: near it, the words go to the left of the dive.
            var isNear = scene.HasFuture && scene.NowX - group.Last.X < NearNow;
            words.TryPlace(
                block,
                isNear ? [.. leftward, .. rightward, .. elsewhere] : [.. rightward, .. leftward, .. elsewhere]
            );
        }
    }

    public static void Return(TideScene scene, WordPlacer words)
    {
        var zone = scene.Record.Zone;
        var top = scene.Sizes.Top + 16;
        if (scene.HasFuture && scene.Record.Return?.Forecast is { } days && scene.X(days.Early) < scene.Width)
        {
            List<WordLine> block =
            [
                new(scene.Text.Return, "pic-word pic-bold"),
                new(scene.Text.Range(zone, days.Early, days.Late), "pic-word pic-slant"),
            ];
            if (scene.IsWide && scene.Record.Return.Juveniles is [.., var last])
            {
                block.Add(new(scene.Text.Juveniles(last.Value), "pic-word pic-slant"));
            }

            var y = scene.Sizes.FreshY - 10 - (LineHeight * (block.Count - 1));
            var x = scene.X(days.Middle);
            words.TryPlace(
                block,
                [
                    new(x, y, WordAnchor.Middle),
                    new(scene.Width - 6, y, WordAnchor.End),
                    new(x - 20, y, WordAnchor.End),
                    new(x, top, WordAnchor.Middle),
                ]
            );
        }
        else if (scene.Record.Return is { Seen: [var first, ..] seen } && scene.InView(first))
        {
            WordLine[] block =
            [
                new(scene.Text.Return, "pic-word pic-bold"),
                new(scene.Text.Range(zone, first, seen[^1]), "pic-word"),
            ];
            var (x, y) = (scene.X(first), scene.Sizes.FreshY - 10 - LineHeight);
            words.TryPlace(
                block,
                [new(x, y, WordAnchor.Middle), new(x - 4, y, WordAnchor.End), new(x + 4, y, WordAnchor.Start)]
            );
        }
    }

    public static void Ends(TideScene scene, WordPlacer words)
    {
        foreach (var end in scene.Record.Ends.Where(end => scene.InView(end.At)))
        {
            var isSea = end.Kind == TideEndKind.GivenUp && scene.Record.Crossings.Count > 0;
            List<WordLine> block = [new(scene.Text.EndOn(scene.Record, end), "pic-word pic-bold")];
            if (end.FirstSeenNone is { } none)
            {
                block.Add(new(scene.Text.NoneSeenFrom(scene.Record.Zone, none), "pic-word"));
            }

            var line = isSea ? scene.Y(scene.Salinity(scene.Main, end.At)) : scene.Sizes.FreshY;
            var y = line - 38 - (LineHeight * (block.Count - 1)) + (isSea ? 0 : 14);
            var x = scene.X(end.At);
            var below = line + 32;
            words.TryPlace(
                block,
                [
                    new(x + 12, y, WordAnchor.End),
                    new(x, y, WordAnchor.Middle),
                    new(scene.Width - 6, y, WordAnchor.End),
                    new(x - 6, y - 16, WordAnchor.End),
                    new(x + 14, y, WordAnchor.Start),
                    new(x + 16, line + 4, WordAnchor.Start),
                    new(x - 30, y, WordAnchor.End),
                    new(x - 60, y, WordAnchor.End),
                    new(x - 60, y - 20, WordAnchor.End),
                    new(x + 8, below, WordAnchor.End),
                    new(scene.Width - 6, below, WordAnchor.End),
                ]
            );
        }
    }

    public static void Hatch(TideScene scene, WordPlacer words)
    {
        var zone = scene.Record.Zone;
        var unseen = scene.Record.Nights.Where(night => night.Collected is null && night.Chance > 0).ToList();
        if (
            scene.HasFuture
            && scene.Record.Hatch is { } hatch
            && scene.Record.Crossings.Count == 0
            && scene.X(hatch.Early) < scene.Width
            && scene.X(hatch.Late) > 0
        )
        {
            WordLine[] block =
            [
                new(scene.Text.Hatch, "pic-word pic-bold"),
                new(scene.Text.Range(zone, hatch.Early, hatch.Late), "pic-word pic-slant"),
            ];
            HatchWords(scene, words, block, scene.X(hatch.Early), scene.X(hatch.Late), scene.Width);
        }
        else if (unseen.Count > 0 && scene.Record.Crossings.Count > 0)
        {
            var (from, to) = (
                zone.AtStartOfDay(unseen[0].Evening).ToInstant(),
                zone.AtStartOfDay(unseen[^1].Evening).ToInstant()
            );
            if (from < scene.Record.Now && scene.InView(from))
            {
                WordLine[] block =
                [
                    new(scene.Text.Hatched, "pic-word pic-bold"),
                    new(scene.Text.Range(zone, from, to), "pic-word pic-slant"),
                ];
                HatchWords(scene, words, block, scene.X(from), scene.X(to), scene.NowX);
            }
        }
    }

    // What was stands left of now, what is to come anywhere: no further right than the limit.
    private static void HatchWords(
        TideScene scene,
        WordPlacer words,
        WordLine[] block,
        double early,
        double late,
        double limit
    )
    {
        var y = scene.Sizes.FreshY - 26;
        var top = scene.Sizes.Top + 16;
        WordPlace[] places =
        [
            new(late + 10, y, WordAnchor.Start),
            new(late + 18, y, WordAnchor.Start),
            new(early - 10, y, WordAnchor.End),
            new(late + 10, top, WordAnchor.Start),
            new((early + late) / 2, top, WordAnchor.Middle),
            new(scene.Width - 6, top, WordAnchor.End),
            new(late + 4, scene.Y(6), WordAnchor.Start),
            new(scene.Width - 6, scene.Y(6), WordAnchor.End),
        ];
        words.TryPlace(
            block,
            places.Where(place => block.All(line => WordPlacer.BoxOf(line, place).Right <= limit))
        );
    }

    public static void Marks(TideScene scene, WordPlacer words)
    {
        var y = scene.Sizes.FreshY - 12;
        foreach (var mark in scene.Record.Brood.Marks.Where(mark => scene.InView(mark.To)))
        {
            var x = TideBroodPart.TickX(scene, mark);
            words.TryPlace(
                [new(scene.Text.MarkOn(scene.Record.Zone, mark, scene.IsWide), "pic-word")],
                [
                    new(x + 3, y, WordAnchor.End),
                    new(Math.Max(4, x - 2), y, WordAnchor.Start),
                    new(x + 3, y - LineHeight, WordAnchor.End),
                    new(Math.Max(4, x - 2), y - LineHeight, WordAnchor.Start),
                    .. scene.HasFuture && scene.NowX < NowAtLeft
                        ? new[] { new WordPlace(scene.NowX + 6, y, WordAnchor.Start) }
                        : [],
                ]
            );
        }
    }
}
