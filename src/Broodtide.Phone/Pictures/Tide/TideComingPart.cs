using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>Moves to come, a hatch or a return, as a band between the earliest and the latest S; and returns seen.</summary>
internal static class TideComingPart
{
    public static void Draw(TideScene scene)
    {
        var fresh = scene.Sizes.FreshY;
        if (!scene.HasFuture)
        {
            Seen(scene);
            return;
        }

        if (scene.Record.Hatch is { } hatch && scene.Record.Crossings.Count == 0)
        {
            var foot = scene.Y(scene.Salinity(scene.Main, hatch.Middle));
            Sweep(scene, hatch, fresh, foot);
        }

        if (scene.Record.Return is { Forecast: { } back })
        {
            var foot = scene.Y(scene.Salinity(scene.Main, back.Middle));
            Sweep(scene, back, foot, fresh);
            var from = Math.Clamp(scene.X(back.Early), 0, scene.Width);
            if (from < scene.Width)
            {
                scene.Add(
                    new PathShape(
                        "pic-line pic-far",
                        new PathPen().Move(from, fresh).Line(scene.Width, fresh).ToString()
                    )
                );
            }
        }

        Seen(scene);
        Juveniles(scene);
    }

    private static void Sweep(TideScene scene, TideDays days, double top, double bottom)
    {
        var w = scene.Sizes.Sweep;
        double Held(Instant at) => Math.Clamp(scene.X(at), scene.NowX, scene.Width);
        var (early, middle, late) = (Held(days.Early), Held(days.Middle), Held(days.Late));
        if (early >= scene.Width || scene.X(days.Late) < scene.NowX)
        {
            return;
        }

        double Shoulder(double x) => Math.Max(Math.Min(x, scene.NowX), x - w);
        var band = S(new PathPen().Move(Shoulder(early), top), Shoulder(early), top, early, bottom)
            .Line(late, bottom);
        S(band, late, bottom, Shoulder(late), top).Close();
        scene.Add(new PathShape("pic-sweep", band.ToString(), Hatch.Move));
        if (middle < scene.Width)
        {
            var line = S(new PathPen().Move(Shoulder(middle), top), Shoulder(middle), top, middle, bottom);
            scene.Add(new PathShape("pic-line pic-far", line.ToString()));
        }
    }

    private static PathPen S(PathPen pen, double x0, double y0, double x1, double y1) =>
        pen.Curve(x0 + ((x1 - x0) * 0.6), y0, x0 + ((x1 - x0) * 0.4), y1, x1, y1);

    private static void Seen(TideScene scene)
    {
        var fresh = scene.Sizes.FreshY;
        var w = scene.Sizes.Sweep;
        var days = scene.Record.Return?.Seen.Where(scene.InView).ToList() ?? [];
        foreach (var day in days)
        {
            var x = scene.X(day);
            var from = Math.Max(0, x - w);
            var foot = scene.Y(scene.Salinity(scene.Main, day));
            var pen = S(new PathPen().Move(from, foot), from, foot, x, fresh);
            scene.Add(new PathShape("pic-line", pen.ToString()));
            scene.Obstacles.Add(new(from + (w * 0.35), fresh, from + (w * 0.65), foot));
            scene.Targets.Add(
                new(3, x, fresh, day, scene.Text.Return, scene.Text.Day(scene.Record.Zone, day))
            );
        }

        if (days.Count > 0)
        {
            var end = Math.Min(
                scene.Width,
                Math.Max(scene.X(days[0]), scene.IsEnded ? scene.X(scene.PastEnd) : scene.NowX)
            );
            var pen = new PathPen().Move(scene.X(days[0]), fresh).Line(end, fresh);
            scene.Add(new PathShape("pic-line", pen.ToString()));
        }
    }

    private static void Juveniles(TideScene scene)
    {
        var rows = scene.Record.Return?.Juveniles.Where(row => scene.InView(row.At)).ToList() ?? [];
        if (rows.Count < 2)
        {
            return;
        }

        var level = scene.Sizes.FreshY + 1;
        IReadOnlyList<(double X, double Y)> Edge(Func<TideRow, double> of) =>
            [.. rows.Select(row => (scene.X(row.At), level + (of(row) * scene.PxPerLarva)))];
        var sure = new PathPen()
            .Through(Edge(row => row.Value.Low))
            .Through([.. Edge(_ => 0).Reverse()], goOn: true)
            .Close();
        scene.Add(
            new PathShape(
                "pic-keel-95 pic-far",
                new PathPen().Through(Edge(row => row.Value.High)).ToString()
            )
        );
        scene.Add(new PathShape("pic-plain", sure.ToString(), Hatch.Keel));
        scene.Add(
            new PathShape(
                "pic-keel-50 pic-far",
                new PathPen().Through(Edge(row => row.Value.Middle)).ToString()
            )
        );
    }
}
