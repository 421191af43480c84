using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The words in the picture, in the order of their worth.</summary>
internal static class TideWordsPart
{
    private const double LineHeight = 15;
    private const double LineAir = 1.5;
    private const double NearNow = 60;
    private const double RoomForEntries = 56;

    public static void Draw(TideScene scene, Box? flag)
    {
        var words = new WordPlacer(scene.Width, scene.BorderY + 3) { HaloAt = (x, y) => Halo(scene, x, y) };
        if (flag is { } tag)
        {
            words.Avoid(tag);
            words.Avoid(new(scene.NowX - 0.8, scene.Sizes.Top, scene.NowX + 0.8, scene.BorderY));
        }

        scene.Obstacles.ForEach(words.Avoid);
        Lines(scene, words);
        Crossings(scene, words);
        Return(scene, words);
        Ends(scene, words);
        Alive(scene, words);
        Hatch(scene, words);
        Mind(scene, words);
        Marks(scene, words);
        TideReadingsPart.Words(scene, words);
        Behind(scene, words);
        Zones(scene, words);
        ScaleBar(scene, words);
        Lanes(scene, words);
        scene.Shapes.AddRange(words.Placed);
    }

    // The line itself and the past keel under it, as a chain of narrow boxes.
    private static void Lines(TideScene scene, WordPlacer words)
    {
        if (scene.Main is not { } main || TideFleet.From(scene.Record, main) is not { } start)
        {
            return;
        }

        const double Wide = 6;
        var rows = TideKeelPart.RowsOf(scene);
        var last =
            main.Salinity.Count > 0 ? scene.X(Instant.Max(main.Salinity[^1].At, scene.PastEnd)) : scene.NowX;
        var to = Math.Min(last, scene.IsEnded ? scene.X(scene.PastEnd) : scene.Width);
        for (var x = Math.Max(0, scene.X(start)); x < to; x += Wide)
        {
            var (left, right) = (scene.At(x), scene.At(Math.Min(x + Wide, to)));
            var (a, b) = (scene.Y(scene.Salinity(main, left)), scene.Y(scene.Salinity(main, right)));
            var (top, bottom) = (Math.Min(a, b) - LineAir, Math.Max(a, b) + LineAir);
            if (rows.Count > 0 && left >= rows[0].At && x < scene.NowX)
            {
                bottom = Math.Max(
                    bottom,
                    scene.Calm(main, left) + (TideTrack.At(rows, left)!.Value.High * scene.PxPerLarva)
                );
            }

            words.Avoid(new(x, top, Math.Min(x + Wide, to), bottom));
        }
    }

    private static void Crossings(TideScene scene, WordPlacer words)
    {
        if (scene.IsFolded && scene.Record.Crossings.Count > 0)
        {
            var told = new WordLine(PictureText.Crossed(scene.Record), "pic-word");
            var y =
                (scene.Y(scene.Record.Zones.FreshBelowPpt) + scene.Y(scene.Record.Zones.SeaFromPpt)) / 2 + 4;
            words.TryPlace([told], [new(76, y, WordAnchor.Start), new(scene.NowX + 80, y, WordAnchor.Start)]);
            return;
        }

        foreach (var group in TideDivePart.Groups(scene))
        {
            WordLine[] block =
            [
                new(PictureText.CrossingGroup(scene.Record, group, scene.IsWide), "pic-word pic-bold"),
                new(PictureText.CrossingLarvae(group, scene.IsWide), "pic-word pic-slant"),
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

    private static void Return(TideScene scene, WordPlacer words)
    {
        var zone = scene.Record.Zone;
        var top = scene.Sizes.Top + 16;
        if (scene.HasFuture && scene.Record.Return?.Forecast is { } days && scene.X(days.Early) < scene.Width)
        {
            List<WordLine> block =
            [
                new(PictureText.Return, "pic-word pic-bold"),
                new(PictureText.Range(zone, days.Early, days.Late), "pic-word pic-slant"),
            ];
            if (scene.IsWide && scene.Record.Return.Juveniles is [.., var last])
            {
                block.Add(new(PictureText.Juveniles(last.Value), "pic-word pic-slant"));
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
                new(PictureText.Return, "pic-word pic-bold"),
                new(PictureText.Range(zone, first, seen[^1]), "pic-word"),
            ];
            var (x, y) = (scene.X(first), scene.Sizes.FreshY - 10 - LineHeight);
            words.TryPlace(
                block,
                [new(x, y, WordAnchor.Middle), new(x - 4, y, WordAnchor.End), new(x + 4, y, WordAnchor.Start)]
            );
        }
    }

    private static void Ends(TideScene scene, WordPlacer words)
    {
        foreach (var end in scene.Record.Ends.Where(end => scene.InView(end.At)))
        {
            var isSea = end.Kind == TideEndKind.GivenUp && scene.Record.Crossings.Count > 0;
            List<WordLine> block = [new(PictureText.EndOn(scene.Record, end), "pic-word pic-bold")];
            if (end.FirstSeenNone is { } none)
            {
                block.Add(new(PictureText.NoneSeenFrom(scene.Record.Zone, none), "pic-word"));
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

    private static void Alive(TideScene scene, WordPlacer words)
    {
        if (scene.IsEnded || scene.Main is not { } main || !scene.InView(scene.Record.Now))
        {
            return;
        }

        var rows = TideKeelPart.RowsOf(scene);
        var now = TideTrack.At(rows, scene.Record.Now);
        if (now is not { } alive || rows[0].At > scene.Record.Now)
        {
            return;
        }

        List<WordLine> block =
        [
            new(PictureText.AliveNow(alive, TideKeelPart.IsRough(scene), scene.IsWide), "pic-word pic-slant"),
        ];
        if (scene.Record.NoneSeenSince is { } none)
        {
            block.Add(new(PictureText.NoneSeenSince(scene.Record.Zone, none), "pic-word"));
        }

        var y = scene.Calm(main, scene.Record.Now) + (alive.High * scene.PxPerLarva) + 17;
        y = Math.Min(y, scene.BedY - 6 - (LineHeight * (block.Count - 1)));
        var band = scene.Y(scene.Salinity(main, scene.Record.Now)) - 22 - (LineHeight * (block.Count - 1));
        words.TryPlace(
            block,
            [
                new(scene.NowX + 7, y, WordAnchor.Start),
                new(scene.NowX - 7, y, WordAnchor.End),
                new(scene.NowX + 7, band, WordAnchor.Start),
                new(scene.NowX - 7, band, WordAnchor.End),
            ]
        );
    }

    private static void Hatch(TideScene scene, WordPlacer words)
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
                new(PictureText.Hatch, "pic-word pic-bold"),
                new(PictureText.Range(zone, hatch.Early, hatch.Late), "pic-word pic-slant"),
            ];
            HatchWords(scene, words, block, scene.X(hatch.Early), scene.X(hatch.Late));
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
                    new(PictureText.Hatched, "pic-word pic-bold"),
                    new(PictureText.Range(zone, from, to), "pic-word pic-slant"),
                ];
                HatchWords(scene, words, block, scene.X(from), scene.X(to));
            }
        }
    }

    private static void HatchWords(
        TideScene scene,
        WordPlacer words,
        WordLine[] block,
        double early,
        double late
    )
    {
        var y = scene.Sizes.FreshY - 26;
        words.TryPlace(
            block,
            [
                new(late + 10, y, WordAnchor.Start),
                new(early - 10, y, WordAnchor.End),
                new(late + 10, scene.Sizes.Top + 16, WordAnchor.Start),
                new((early + late) / 2, scene.Sizes.Top + 16, WordAnchor.Middle),
                new(scene.Width - 6, scene.Sizes.Top + 16, WordAnchor.End),
                new(late + 4, scene.Y(6), WordAnchor.Start),
                new(scene.Width - 6, scene.Y(6), WordAnchor.End),
            ]
        );
    }

    private static void Mind(TideScene scene, WordPlacer words)
    {
        var fresh = scene.Sizes.FreshY;
        if (scene.Record.Brood.LaterThanNineInTen && scene.HasFuture)
        {
            WordLine[] block = [new(PictureText.LaterThanNineInTen, "pic-word pic-bold pic-mag")];
            words.TryPlace(
                block,
                [
                    new(scene.NowX - 12, fresh + 22, WordAnchor.End),
                    new(scene.NowX + 12, fresh + 22, WordAnchor.Start),
                    new(scene.NowX - 12, fresh - 24, WordAnchor.End),
                    new(scene.NowX + 12, scene.Sizes.Top + 16, WordAnchor.Start),
                ]
            );
        }

        if (scene.Record.Breach is { } breach && scene.HasFuture && scene.InView(breach.At))
        {
            var x = TideMarksPart.BreachX(scene, breach);
            var y = scene.Y(breach.LimitPpt);
            words.TryPlace(
                [new(PictureText.Breach(breach), "pic-word pic-bold pic-mag")],
                [
                    new(x + 12, y - 14, WordAnchor.Start),
                    new(x + 12, y - 30, WordAnchor.Start),
                    new(scene.NowX - 10, y - 18, WordAnchor.End),
                    new(x + 12, y + 22, WordAnchor.Start),
                    new(scene.NowX - 10, y - 32, WordAnchor.End),
                ]
            );
        }

        if (scene.Main is { Salinity.Count: 0 } main && TideFleet.From(scene.Record, main) is { } from)
        {
            var start = Math.Clamp(scene.X(from), 0, scene.Width);
            var y = scene.Y(scene.Salinity(main, from)) - 10;
            words.TryPlace(
                [new(PictureText.NotMeasured, "pic-word")],
                [
                    new(start + 12, y, WordAnchor.Start),
                    new(scene.NowX - 6, y, WordAnchor.End),
                    new(scene.NowX + 6, y, WordAnchor.Start),
                    new(start - 18, y, WordAnchor.End),
                ]
            );
        }
    }

    private static void Marks(TideScene scene, WordPlacer words)
    {
        var y = scene.Sizes.FreshY - 12;
        foreach (var mark in scene.Record.Brood.Marks.Where(mark => scene.InView(mark.To)))
        {
            var x = TideBroodPart.TickX(scene, mark);
            words.TryPlace(
                [new(PictureText.MarkOn(scene.Record.Zone, mark, scene.IsWide), "pic-word")],
                [
                    new(x + 3, y, WordAnchor.End),
                    new(Math.Max(4, x - 2), y, WordAnchor.Start),
                    new(x + 3, y - LineHeight, WordAnchor.End),
                    new(Math.Max(4, x - 2), y - LineHeight, WordAnchor.Start),
                    .. Math.Abs(scene.NowX - x) < NearNow
                        ? new[] { new WordPlace(scene.NowX + 6, y, WordAnchor.Start) }
                        : [],
                ]
            );
        }
    }

    private static void Behind(TideScene scene, WordPlacer words)
    {
        var behind = scene
            .Record.Vessels.Where(vessel =>
                vessel != scene.Main && TideFleet.From(scene.Record, vessel) < scene.PastEnd
            )
            .Select(vessel =>
                (
                    Vessel: vessel,
                    From: TideFleet.From(scene.Record, vessel)!.Value,
                    To: Instant.Min(vessel.JoinedInto?.At ?? scene.PastEnd, scene.PastEnd)
                )
            )
            .Where(one => one.From <= scene.View.To && one.To >= scene.View.From)
            .OrderByDescending(one => TideTrack.At(one.Vessel.Alive, one.To)?.Middle ?? 0)
            .ToList();
        var named = behind.Count > 2 ? behind.Take(2).ToList() : behind;
        for (var i = 0; i < named.Count; i++)
        {
            var (vessel, from, to) = named[i];
            List<WordLine> block =
            [
                new(
                    PictureText.VesselWith(vessel.Name, TideTrack.At(vessel.Alive, to - Duration.Epsilon)),
                    "pic-word"
                ),
            ];
            if (i == 1 && behind.Count > 2)
            {
                block.Add(new(PictureText.AndMore(behind.Count - 2), "pic-word pic-quiet"));
            }

            var shown = Instant.Max(from, scene.View.From);
            var until = Instant.Min(to, scene.View.To);
            var places = new List<WordPlace>();
            foreach (var share in new[] { 0.3, 0.5, 0.7, 0.1, 0.9 })
            {
                var at = shown + ((until - shown) * share);
                var y = TideLinePart.BehindY(scene, vessel, shown, until, at);
                places.Add(new(scene.X(at), y - 8 - (LineHeight * (block.Count - 1)), WordAnchor.Middle));
                places.Add(new(scene.X(at), y - 22 - (LineHeight * (block.Count - 1)), WordAnchor.Middle));
                places.Add(new(scene.X(at), y - 36 - (LineHeight * (block.Count - 1)), WordAnchor.Middle));
            }

            words.TryPlace(block, places);
        }
    }

    private static void Zones(TideScene scene, WordPlacer words)
    {
        var fresh = scene.Y(scene.Record.Zones.FreshBelowPpt);
        var sea = scene.Y(scene.Record.Zones.SeaFromPpt);
        var x = scene.HasFuture && scene.NowX < 80 ? scene.NowX + 8 : 8;
        void Name(string text, double y) =>
            words.TryPlace([new(text, "pic-word pic-quiet")], [new(x, y, WordAnchor.Start)]);
        Name(PictureText.Fresh, scene.Sizes.Top + 15);
        Name(PictureText.Brackish, ((fresh + sea) / 2) + 4);
        Name(PictureText.Sea, sea + 16);
    }

    private static void ScaleBar(TideScene scene, WordPlacer words)
    {
        var most = scene.Sizes.Keel / scene.PxPerLarva;
        var rows = TideKeelPart.RowsOf(scene);
        if (rows.Count == 0 || scene.Main is not { } main || most < 1)
        {
            return;
        }

        var round = RoundNumber(most);
        var height = round * scene.PxPerLarva;
        var text = PictureText.Larvae(round);
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

    private static void Lanes(TideScene scene, WordPlacer words)
    {
        if (scene.HasStages && scene.X(scene.Record.Stages[0].At) > 50)
        {
            var y = (scene.BedY + scene.StageBottom) / 2;
            words.TryPlace([new(PictureText.Stage, "pic-word pic-quiet")], [new(8, y + 4, WordAnchor.Start)]);
        }

        if (scene.Frame.Zoom != TideZoom.WholeRun)
        {
            foreach (var stave in Enum.GetValues<TideStave>())
            {
                var y = TideEntriesPart.StaveY(scene, stave) + 4;
                words.TryPlace(
                    [new(PictureText.Stave(stave), "pic-word pic-quiet")],
                    scene.HasFuture
                        ? [new(scene.NowX + 8, y, WordAnchor.Start), new(scene.Width - 8, y, WordAnchor.End)]
                        : [new(scene.Width - 8, y, WordAnchor.End)]
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
                [new(PictureText.Entries, "pic-word pic-quiet")],
                [
                    scene.HasFuture
                        ? new(scene.NowX + 7, y, WordAnchor.Start)
                        : new(scene.Width - 8, y, WordAnchor.End),
                ]
            );
        }
    }

    private static string Halo(TideScene scene, double x, double y)
    {
        if (y > scene.BedY)
        {
            return y > scene.StageBottom ? "pic-halo-paper" : "";
        }

        var zone =
            y - 4 < scene.Y(scene.Record.Zones.FreshBelowPpt) ? "fresh"
            : y - 4 < scene.Y(scene.Record.Zones.SeaFromPpt) ? "shore"
            : "sea";
        return scene.HasFuture && x > scene.NowX ? $"pic-halo-{zone}-far" : $"pic-halo-{zone}";
    }
}
