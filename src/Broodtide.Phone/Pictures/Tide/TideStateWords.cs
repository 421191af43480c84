using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The words of what is: alive now, what to mind, the vessels behind.</summary>
internal static class TideStateWords
{
    private const double LineHeight = 15;

    public static void Alive(TideScene scene, WordPlacer words)
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
            new(scene.Text.AliveNow(alive, TideKeelPart.IsRough(scene), scene.IsWide), "pic-word pic-slant"),
        ];
        if (scene.Record.NoneSeenSince is { } none)
        {
            block.Add(new(scene.Text.NoneSeenSince(scene.Record.Zone, none), "pic-word"));
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

    public static void Mind(TideScene scene, WordPlacer words)
    {
        var fresh = scene.Sizes.FreshY;
        if (scene.Record.Brood.LaterThanNineInTen && scene.HasFuture)
        {
            WordLine[] block = [new(scene.Text.LaterThanNineInTen, "pic-word pic-bold pic-mag")];
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
                [new(scene.Text.Breach(breach), "pic-word pic-bold pic-mag")],
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
                [new(scene.Text.NotMeasured, "pic-word")],
                [
                    new(start + 12, y, WordAnchor.Start),
                    new(scene.NowX - 6, y, WordAnchor.End),
                    new(scene.NowX + 6, y, WordAnchor.Start),
                    new(start - 18, y, WordAnchor.End),
                ]
            );
        }
    }

    public static void Behind(TideScene scene, WordPlacer words)
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
                    scene.Text.VesselWith(vessel.Name, TideTrack.At(vessel.Alive, to - Duration.Epsilon)),
                    "pic-word"
                ),
            ];
            if (i == 1 && behind.Count > 2)
            {
                block.Add(new(scene.Text.AndMore(behind.Count - 2), "pic-word pic-quiet"));
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
}
