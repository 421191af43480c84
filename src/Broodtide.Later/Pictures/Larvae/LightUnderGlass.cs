namespace Broodtide.Phone.Pictures;

/// <summary>A torch held to the glass: how many come to it.</summary>
internal static class LightUnderGlass
{
    private static readonly (double X, double Y, double Turn)[] Away =
    [
        (-8, -20, 20),
        (8, -23, -25),
        (20, -15, 60),
        (-12, 19, -30),
        (4, 22, 10),
        (18, 17, 130),
        (-20, 13, 80),
    ];

    private static readonly (double X, double Y, double Turn)[] There =
    [
        (-12, -1, 10),
        (-5, 3, 60),
        (2, -3, -40),
        (8, 3, 20),
        (14, -2, 90),
        (-8, -4, 140),
        (4, 5, 200),
    ];

    public static void Draw(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var beam = new PathPen();
        var (a, b, c, d) = (at.At(-22, -2.6), at.At(28.4, -11), at.At(28.4, 11), at.At(-22, 2.6));
        beam.Move(a.X, a.Y).Line(b.X, b.Y).Line(c.X, c.Y).Line(d.X, d.Y).Close();
        shapes.Add(new PathShape("larva-beam", beam.ToString()));
        shapes.Add(
            new PathShape(
                "larva-torch",
                at.Smooth(true, (-28.5, -4), (-22, -4.6), (-21.4, 0), (-22, 4.6), (-28.5, 4))
            )
        );
        var (swimmers, heads) = (new PathPen(), new List<(double X, double Y)>());
        IEnumerable<(double X, double Y, double Turn)> all = traits.LeavesLight
            ? [.. Away, There[2], There[4]]
            : [.. There, Away[1], Away[4]];
        foreach (var (x, y, turn) in all)
        {
            var larva = at.Inside(x, y, 1, turn);
            larva.Smooth(swimmers, false, (-3.4, 0), (0, -1.2), (3, 0.6), (4.4, 2.4));
            heads.Add(larva.At(-3.4, 0));
        }

        shapes.Add(new PathShape("larva-swimmer", swimmers.ToString()));
        shapes.AddRange(heads.Select(head => new DiscShape("larva-eye", head.X, head.Y, 1.5 * at.Scale)));
    }
}
