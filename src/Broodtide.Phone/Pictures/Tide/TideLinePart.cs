using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The lines in the sea: the vessel that carries the picture, and those behind it.</summary>
internal static class TideLinePart
{
    private const int MostPoints = 400;
    private const double Apart = 4;

    /// <summary>The main vessel's line: saw of top-ups and all; its forecast with a band.</summary>
    public static void Carrying(TideScene scene)
    {
        if (scene.Main is not { } vessel || TideFleet.From(scene.Record, vessel) is not { } start)
        {
            Planned(scene);
            return;
        }

        var from = Instant.Max(start, scene.View.From);
        var to = Instant.Min(scene.PastEnd, scene.View.To);
        if (vessel.Salinity.Count == 0)
        {
            Unmeasured(scene, from, to);
            return;
        }

        if (to > from)
        {
            var path = new PathPen().Through(Thinning.To(MostPoints, Points(scene, vessel, from, to, 0)));
            scene.Add(new PathShape(scene.Frame.Small ? "pic-line pic-thin" : "pic-line", path.ToString()));
        }

        Forecast(scene, vessel);
    }

    /// <summary>The vessels behind: thin, without a keel.</summary>
    public static void Behind(TideScene scene)
    {
        foreach (var vessel in scene.Record.Vessels.Where(one => one != scene.Main))
        {
            if (TideFleet.From(scene.Record, vessel) is not { } start)
            {
                continue;
            }

            var from = Instant.Max(start, scene.View.From);
            var end = vessel.JoinedInto?.At ?? scene.PastEnd;
            var to = Instant.Min(Instant.Min(end, scene.PastEnd), scene.View.To);
            if (to <= from)
            {
                continue;
            }

            var shift = Shift(scene, vessel, from, to);
            var pen = new PathPen();
            var points = Points(scene, vessel, from, to, shift).ToList();
            Links(scene, vessel, points, pen, from, to);
            scene.Add(new PathShape("pic-behind", pen.ToString()));
            var (x, y) = points[points.Count / 2];
            var number = TideTrack.At(vessel.Alive, to);
            scene.Targets.Add(new(4, x, y, from, vessel.Name, scene.Text.Alive(number, vessel.AliveIsRough)));
        }
    }

    /// <summary>The rings where vessels join or part.</summary>
    public static void Rings(TideScene scene)
    {
        foreach (
            var link in scene.Record.Vessels.SelectMany(vessel =>
                new[] { vessel.SplitFrom, vessel.JoinedInto }
            )
        )
        {
            if (link is not null && scene.InView(link.At) && link.At <= scene.PastEnd)
            {
                var other = scene.Record.Vessels.FirstOrDefault(vessel => vessel.Id == link.VesselId);
                scene.Add(
                    new DiscShape("pic-ring", scene.X(link.At), scene.Y(scene.Salinity(other, link.At)), 4)
                );
            }
        }
    }

    /// <summary>Where a vessel behind is drawn at an instant.</summary>
    public static double BehindY(TideScene scene, TideVessel vessel, Instant from, Instant to, Instant at) =>
        scene.Y(scene.Salinity(vessel, at)) + Shift(scene, vessel, from, to);

    private static void Forecast(TideScene scene, TideVessel vessel)
    {
        var last = vessel.Salinity[^1].At;
        var until = Instant.Min(
            scene.View.To,
            scene.Record.Return?.Forecast is { } back ? Instant.Min(last, back.Late) : last
        );
        var from = Instant.Max(scene.Record.Now, scene.View.From);
        if (!scene.HasFuture || until <= from)
        {
            return;
        }

        var rows = Rows(vessel, from, until);
        IReadOnlyList<(double X, double Y)> Edge(Func<Broodtide.Units.Interval, double> of) =>
            Thinning.To(MostPoints, [.. rows.Select(row => (scene.X(row.At), scene.Y(of(row.Value))))]);
        var band = new PathPen()
            .Through(Edge(value => value.Low))
            .Through([.. Edge(value => value.High).Reverse()], goOn: true)
            .Close();
        scene.Add(new PathShape("pic-band", band.ToString()));
        scene.Add(
            new PathShape("pic-line pic-far", new PathPen().Through(Edge(value => value.Middle)).ToString())
        );
    }

    private static void Unmeasured(TideScene scene, Instant from, Instant to)
    {
        var y = scene.Y(scene.Salinity(null, from));
        if (to > from)
        {
            scene.Add(
                new PathShape(
                    "pic-line pic-unmeasured",
                    new PathPen().Move(scene.X(from), y).Line(scene.X(to), y).ToString()
                )
            );
        }
    }

    private static void Planned(TideScene scene)
    {
        if (scene.Record is not { PlannedPpt: { } ppt, Hatch: { } hatch } || !scene.HasFuture)
        {
            return;
        }

        var from = Math.Max(scene.NowX, scene.X(hatch.Middle));
        if (from < scene.Width)
        {
            var pen = new PathPen().Move(from, scene.Y(ppt)).Line(scene.Width, scene.Y(ppt));
            scene.Add(new PathShape("pic-line pic-far", pen.ToString()));
        }
    }

    private static IReadOnlyList<(double X, double Y)> Points(
        TideScene scene,
        TideVessel vessel,
        Instant from,
        Instant to,
        double shift
    ) =>
        vessel.Salinity.Count == 0
            ?
            [
                (scene.X(from), scene.Y(scene.Salinity(vessel, from)) + shift),
                (scene.X(to), scene.Y(scene.Salinity(vessel, to)) + shift),
            ]
            : [.. Rows(vessel, from, to).Select(row => (scene.X(row.At), scene.Y(row.Value.Middle) + shift))];

    private static List<TideRow> Rows(TideVessel vessel, Instant from, Instant to) =>
        [
            new(from, TideTrack.At(vessel.Salinity, from)!.Value),
            .. vessel.Salinity.Where(row => row.At > from && row.At < to),
            new(to, TideTrack.At(vessel.Salinity, to - Duration.Epsilon)!.Value),
        ];

    // Two lines nearer than four pixels cannot be told apart: the one behind is moved down.
    private static double Shift(TideScene scene, TideVessel vessel, Instant from, Instant to)
    {
        if (scene.Main is not { } main)
        {
            return 0;
        }

        const int Samples = 12;
        var needed = 0.0;
        var apart = 0.0;
        for (var i = 0; i <= Samples; i++)
        {
            var at = from + ((to - from) * ((double)i / Samples));
            var gap = scene.Y(scene.Salinity(vessel, at)) - scene.Y(scene.Salinity(main, at));
            apart += Math.Abs(gap) / (Samples + 1);
            needed = Math.Max(needed, Apart - gap);
        }

        return apart < Apart ? needed : 0;
    }

    private static void Links(
        TideScene scene,
        TideVessel vessel,
        List<(double X, double Y)> points,
        PathPen pen,
        Instant from,
        Instant to
    )
    {
        if (vessel.SplitFrom is { } split && split.At == from)
        {
            var source = scene.Record.Vessels.FirstOrDefault(one => one.Id == split.VesselId);
            var y = scene.Y(scene.Salinity(source, split.At));
            var (x, foot) = (points[0].X, points[0].Y);
            pen.Move(x, y).Curve(x + 4, y, x + 4, foot, x + 8, foot);
            points.RemoveAll(point => point.X < x + 8 && points.Count > 1);
            pen.Through(points, goOn: true);
        }
        else
        {
            pen.Through(points);
        }

        if (vessel.JoinedInto is { } joined && joined.At == to)
        {
            var target = scene.Record.Vessels.FirstOrDefault(one => one.Id == joined.VesselId);
            var y = scene.Y(scene.Salinity(target, joined.At));
            var (x, foot) = (points[^1].X, points[^1].Y);
            pen.Curve(x, foot, x, y, x, y);
        }
    }
}
