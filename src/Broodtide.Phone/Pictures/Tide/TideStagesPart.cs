using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The bed: the share of each stage, later stages from below.</summary>
internal static class TideStagesPart
{
    private const double LeastShareForLetter = 0.3;
    private const double LettersApart = 12;

    public static void Draw(TideScene scene)
    {
        if (!scene.HasStages)
        {
            return;
        }

        var rows = scene.Record.Stages;
        var from = Instant.Max(rows[0].At, scene.View.From);
        var to = Instant.Min(
            Instant.Min(rows[^1].At, scene.View.To),
            scene.IsEnded ? scene.PastEnd : Instant.MaxValue
        );
        scene.Add(new BoxShape("pic-sheet", new(0, scene.BedY, scene.Width, scene.StageBottom)));
        if (to > from)
        {
            var times = Times(scene, from, to);
            var sums = times.Select(at => Sums(scene.Record, at)).ToList();
            Bands(scene, times, sums);
            Letters(scene, times, sums);
        }

        scene.Add(
            new PathShape(
                "pic-bed",
                new PathPen().Move(0, scene.BedY).Line(scene.Width, scene.BedY).ToString()
            )
        );
        scene.Add(
            new PathShape(
                "pic-rule",
                new PathPen().Move(0, scene.StageBottom).Line(scene.Width, scene.StageBottom).ToString()
            )
        );
    }

    private static List<Instant> Times(TideScene scene, Instant from, Instant to)
    {
        var step = (scene.View.To - scene.View.From) / (scene.Width / 3);
        var times = new List<Instant>();
        for (var at = from; at < to; at += step)
        {
            times.Add(at);
        }

        times.Add(to);
        return times;
    }

    // For each stage the share at it or beyond it, and a closing zero.
    private static double[] Sums(TideLineRecord record, Instant at)
    {
        var shares = TideFleet.SharesAt(record, at);
        var sums = new double[shares.Count + 1];
        for (var i = shares.Count - 1; i >= 0; i--)
        {
            sums[i] = sums[i + 1] + shares[i];
        }

        return sums;
    }

    private static void Bands(TideScene scene, List<Instant> times, List<double[]> sums)
    {
        var height = scene.Sizes.Stage;
        double Y(double share) => scene.StageBottom - (height * Math.Clamp(share, 0, 1));
        var bounds = new PathPen();
        for (var stage = 0; stage < scene.Record.StageNames.Count; stage++)
        {
            List<(double X, double Y)> Bound(int index) =>
                [.. times.Select((at, i) => (scene.X(at), Y(sums[i][index])))];
            if (sums.TrueForAll(row => row[stage] - row[stage + 1] < 0.002))
            {
                continue;
            }

            var upper = Bound(stage);
            var lower = Bound(stage + 1);
            lower.Reverse();
            var data = new PathPen().Through(upper).Through(lower, goOn: true).Close().ToString();
            var isPost = scene.Record.StageNames[stage].BottomLiving;
            var turn = stage % 2 == 0 ? "pic-stage-a" : "pic-stage-b";
            scene.Add(new PathShape(isPost ? "pic-stage-post" : turn, data));
            if (isPost)
            {
                scene.Add(new PathShape("pic-post-hatch", data, Hatch.Move));
            }

            if (stage > 0)
            {
                bounds.Through(upper);
            }
        }

        scene.Add(new PathShape("pic-stage-bound", bounds.ToString()));
        var (left, right) = (Math.Max(scene.NowX, scene.X(times[0])), scene.X(times[^1]));
        if (scene.HasFuture && right > left)
        {
            scene.Add(new BoxShape("pic-veil", new(left, scene.BedY, right, scene.StageBottom), Hatch.Veil));
        }
    }

    private static void Letters(TideScene scene, List<Instant> times, List<double[]> sums)
    {
        var spots = new List<(double X, double Y, TideStage Stage, bool IsPast)>();
        for (var stage = 0; stage < scene.Record.StageNames.Count; stage++)
        {
            var best = -1;
            for (var i = 0; i < times.Count; i++)
            {
                var x = scene.X(times[i]);
                var isClear = !scene.HasFuture || Math.Abs(x - scene.NowX) > 10;
                if (
                    isClear
                    && x > 10
                    && x < scene.Width - 12
                    && (best < 0 || Share(sums[i], stage) > Share(sums[best], stage) + 1e-9)
                )
                {
                    best = i;
                }
            }

            if (best >= 0 && Share(sums[best], stage) >= LeastShareForLetter)
            {
                best = Middle(
                    times.Count,
                    best,
                    i => Share(sums[i], stage) >= Share(sums[best], stage) - 1e-6
                );
                var middle = (sums[best][stage] + sums[best][stage + 1]) / 2;
                var x = Math.Clamp(scene.X(times[best]), 12, scene.Width - 14);
                spots.Add(
                    (
                        x,
                        scene.StageBottom - (scene.Sizes.Stage * middle) + 4.5,
                        scene.Record.StageNames[stage],
                        times[best] <= scene.PastEnd
                    )
                );
            }
        }

        var isTight = Enumerable
            .Range(1, Math.Max(0, spots.Count - 1))
            .Any(i => spots[i].X - spots[i - 1].X < Wide(spots[i].Stage.Name) + LettersApart);
        var last = double.MinValue;
        foreach (var (x, y, stage, isPast) in spots)
        {
            var text = isTight ? stage.Short : stage.Name;
            var line = new WordLine(text, isPast ? "pic-word" : "pic-word pic-slant");
            var box = WordPlacer.BoxOf(line, new(x, y, WordAnchor.Middle));
            if (box.Left > last + 3 && Math.Abs(x - scene.NowX) > ((box.Right - box.Left) / 2) + 2)
            {
                scene.Add(new WordShape(line.Class, text, x, y, WordAnchor.Middle, box));
                scene.Obstacles.Add(box);
                last = box.Right;
            }
        }
    }

    // A stage that stays whole for a while has its letter in the middle of that while.
    private static int Middle(int count, int first, Func<int, bool> same)
    {
        var last = first;
        while (last + 1 < count && same(last + 1))
        {
            last++;
        }

        return (first + last) / 2;
    }

    private static double Wide(string text) => WordWidths.Of(text, "");

    private static double Share(double[] sums, int stage) => sums[stage] - sums[stage + 1];
}
