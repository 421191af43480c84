using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>Crossings that stand so near each other that they are told as one.</summary>
internal sealed record DiveGroup(IReadOnlyList<Dive> Dives)
{
    public Dive First => Dives[0];
    public Dive Last => Dives[^1];
}

/// <summary>One crossing with the point where its foot stands.</summary>
internal sealed record Dive(TideCrossing Crossing, double X, double Y);

/// <summary>The dives from the fresh line: an S whose foot stands at the true instant.</summary>
internal static class TideDivePart
{
    private const int BraidFrom = 5;
    private const int MostInBraid = 40;

    public static IReadOnlyList<DiveGroup> Groups(TideScene scene)
    {
        var groups = new List<List<Dive>>();
        foreach (var crossing in scene.Record.Crossings.OrderBy(crossing => crossing.At))
        {
            var vessel = scene.Record.Vessels.FirstOrDefault(one => one.Id == crossing.VesselId);
            var foot = new Dive(crossing, scene.X(crossing.At), scene.Y(scene.Salinity(vessel, crossing.At)));
            if (foot.X < 0 || foot.X - scene.Sizes.Dive > scene.Width)
            {
                continue;
            }

            if (groups.Count > 0 && foot.X - groups[^1][^1].X < scene.Sizes.GroupWithin)
            {
                groups[^1].Add(foot);
            }
            else
            {
                groups.Add([foot]);
            }
        }

        return [.. groups.Select(group => new DiveGroup(group))];
    }

    public static void Draw(TideScene scene)
    {
        foreach (var group in Groups(scene))
        {
            var isBraid = group.Dives.Count >= BraidFrom;
            if (isBraid)
            {
                Braid(scene, group);
            }

            foreach (var dive in isBraid ? [group.First, group.Last] : group.Dives)
            {
                var cssClass = scene.Frame.Small ? "pic-line pic-thin" : "pic-line";
                scene.Add(new PathShape(cssClass, Down(scene, new PathPen(), dive).ToString()));
            }

            foreach (var dive in group.Dives)
            {
                scene.Targets.Add(
                    new(
                        3,
                        dive.X,
                        (dive.Y + scene.Sizes.FreshY) / 2,
                        dive.Crossing.At,
                        scene.Text.CrossingTitle(1),
                        scene.Text.CrossingDetail(scene.Record, dive.Crossing)
                    )
                );
            }

            Leave(scene, group);
        }
    }

    private static void Braid(TideScene scene, DiveGroup group)
    {
        var w = scene.Sizes.Dive;
        var fresh = scene.Sizes.FreshY;
        var (first, last) = (group.First, group.Last);
        var outline = Down(scene, new PathPen(), first)
            .Line(last.X, last.Y)
            .Curve(last.X - (w * 0.7), last.Y, last.X - (w * 0.25), fresh, last.X - w, fresh)
            .Close();
        scene.Add(new PathShape("pic-braid", outline.ToString()));
        if (group.Dives.Count > MostInBraid)
        {
            return;
        }

        var inner = new PathPen();
        foreach (var dive in group.Dives.Skip(1).SkipLast(1))
        {
            Down(scene, inner, dive);
        }

        scene.Add(new PathShape("pic-strand", inner.ToString()));
    }

    private static PathPen Down(TideScene scene, PathPen pen, Dive dive)
    {
        // A foot at the very edge leaves less room for the S.
        var w = Math.Min(scene.Sizes.Dive, dive.X);
        var fresh = scene.Sizes.FreshY;
        return pen.Move(dive.X - w, fresh)
            .Curve(dive.X - (w * 0.25), fresh, dive.X - (w * 0.7), dive.Y, dive.X, dive.Y);
    }

    // The words keep off the S as it really runs, so the obstacle is a chain of small boxes along it.
    private static void Leave(TideScene scene, DiveGroup group)
    {
        const int Pieces = 8;
        var w = scene.Sizes.Dive;
        for (var i = 0; i < Pieces; i++)
        {
            var (a, b) = ((double)i / Pieces, (double)(i + 1) / Pieces);
            var y0 = scene.Sizes.FreshY + ((group.First.Y - scene.Sizes.FreshY) * Eased(a));
            var y1 = scene.Sizes.FreshY + ((group.First.Y - scene.Sizes.FreshY) * Eased(b));
            scene.Obstacles.Add(
                new(Across(group.First.X - w, w, a), y0, Across(group.Last.X - w, w, b), y1 + 0.1)
            );
        }
    }

    private static double Eased(double share) => share * share * (3 - (2 * share));

    private static double Across(double from, double w, double s)
    {
        var r = 1 - s;
        return from + (w * ((3 * r * r * s * 0.75) + (3 * r * s * s * 0.3) + (s * s * s)));
    }
}
