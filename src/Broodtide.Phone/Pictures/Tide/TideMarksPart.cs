using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>Counts, ends, and what to mind.</summary>
internal static class TideMarksPart
{
    public static void Counts(TideScene scene)
    {
        if (scene.Main is not { } main)
        {
            return;
        }

        foreach (
            var count in scene.Record.Counts.Where(one => one.VesselId == main.Id && scene.InView(one.At))
        )
        {
            var x = scene.X(count.At);
            var calm = scene.Calm(main, count.At);
            double Y(double larvae) => Math.Min(calm + (larvae * scene.PxPerLarva), scene.BedY - 2);
            var radius = scene.Frame.Small ? 2.6 : 3.6;
            if (!scene.Frame.Small)
            {
                var bar = new PathPen().StandingBar(x, Y(count.Larvae.Low), Y(count.Larvae.High), 3);
                scene.Add(new PathShape("pic-bar", bar.ToString()));
            }

            scene.Add(new DiscShape("pic-ring pic-count", x, Y(count.Larvae.Middle), radius));
            scene.Obstacles.Add(new(x - 4, Y(count.Larvae.Low) - 2, x + 4, Y(count.Larvae.High) + 2));
            scene.Targets.Add(
                new(2, x, Y(count.Larvae.Middle), count.At, scene.Text.Count, scene.Text.Number(count.Larvae))
            );
        }
    }

    public static void Ends(TideScene scene)
    {
        foreach (var end in scene.Record.Ends.Where(end => scene.InView(end.At)))
        {
            var isSea = end.Kind == TideEndKind.GivenUp && scene.Record.Crossings.Count > 0;
            var y = isSea ? scene.Y(scene.Salinity(scene.Main, end.At)) : scene.Sizes.FreshY;
            var half = scene.Frame.Small ? 8 : 16;
            var x = Math.Min(scene.X(end.At), scene.Width - 10);
            scene.Add(
                new PathShape(
                    "pic-end-thin",
                    new PathPen().Move(x + 3, y - half).Line(x + 3, y + half).ToString()
                )
            );
            scene.Add(
                new PathShape(
                    "pic-end-thick",
                    new PathPen().Move(x + 8, y - half).Line(x + 8, y + half).ToString()
                )
            );
            scene.Obstacles.Add(new(x, y - half, x + 10, y + half));
            if (end.FirstSeenNone is { } none && !scene.Frame.Small)
            {
                NoneSeen(scene, Math.Max(0, scene.X(none)), x + 3, y - half - 8);
            }

            scene.Targets.Add(
                new(3, x, y, end.At, scene.Text.End(end), scene.Text.Day(scene.Record.Zone, end.At))
            );
        }
    }

    public static void Mind(TideScene scene)
    {
        if (scene.Frame.Small)
        {
            return;
        }

        if (scene.Record.Brood.LaterThanNineInTen && scene.HasFuture)
        {
            scene.Add(new DiscShape("pic-mind-ring", Math.Max(8, scene.NowX), scene.Sizes.FreshY, 7));
        }

        if (scene.Record.Breach is { } breach && scene.HasFuture && scene.InView(breach.At))
        {
            scene.Add(new DiscShape("pic-mind-ring", BreachX(scene, breach), scene.Y(breach.LimitPpt), 7));
        }
    }

    public static double BreachX(TideScene scene, TideBreach breach) =>
        Math.Clamp(scene.X(breach.At), 8, scene.Width - 8);

    private static void NoneSeen(TideScene scene, double from, double to, double y)
    {
        if (to <= from)
        {
            return;
        }

        var pen = new PathPen()
            .Move(from, y)
            .Line(to, y)
            .Move(from, y - 4)
            .Line(from, y + 4)
            .Move(to, y - 4)
            .Line(to, y + 4);
        scene.Add(new PathShape("pic-bar", pen.ToString()));
        scene.Obstacles.Add(new(from, y - 4, to, y + 4));
    }
}
