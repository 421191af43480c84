namespace Broodtide.Phone.Pictures;

/// <summary>The animal from its side: about 100 units from the tip of its forehead to the end of its tail.</summary>
internal static class LarvaSide
{
    /// <summary>How far the body of one that walks is tilted, head up.</summary>
    public const double WalkingDegrees = 9;

    public static LarvaSpots Draw(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        if (traits.Walks)
        {
            Ground(shapes, at);
        }

        Feelers(shapes, at, traits);
        Legs(shapes, at, traits);
        var fan = LarvaTail.Fan(shapes, at, traits);
        LarvaTail.PleopodsBelow(shapes, at, traits);
        LarvaTail.Rings(shapes, at, traits);
        Shield(shapes, at, traits);
        var eye = Eye(shapes, at, traits);
        return new(eye, fan.At(8, 0), at.At(58, LarvaTail.Middle(0.5, traits) + 7));
    }

    private static void Ground(List<Shape> shapes, Sketch at)
    {
        var (_, y) = at.At(30, 21.5);
        shapes.Add(
            new PathShape("larva-ground", new PathPen().Move(2, y).Line(LarvaFigure.Width - 2, y).ToString())
        );
        var (nose, height) = at.At(-4, -4);
        shapes.Add(
            new PathShape(
                "larva-tilt",
                new PathPen()
                    .Move(nose - 10, height + 14)
                    .Line(nose - 10, height - 6)
                    .Move(nose - 13.5, height - 1)
                    .Line(nose - 10, height - 6)
                    .Line(nose - 6.5, height - 1)
                    .ToString()
            )
        );
    }

    private static void Feelers(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var pen = new PathPen();
        at.Smooth(pen, false, (10, 1), (2, 1.6), (-6, 0.8));
        if (traits.Walks)
        {
            at.Smooth(pen, false, (9, 3), (-2, 7), (-7, 2), (-5, -9), (4, -17), (18, -21));
            at.Smooth(pen, false, (9, 3), (0, 5.5), (-4, 1), (-2, -7), (6, -13), (14, -15.5));
        }
        else
        {
            at.Stroke(pen, -6, 0.8, -11, -0.6);
            at.Stroke(pen, -6, 0.8, -11, 1.6);
            shapes.Add(
                new PathShape(
                    "larva-body",
                    at.Smooth(true, (10, 3.4), (2, 4.2), (-5, 6.6), (-3, 8.4), (4, 7.4), (10, 5.6))
                )
            );
            foreach (var bristle in Enumerable.Range(0, 5))
            {
                at.Stroke(
                    pen,
                    -5 + (2.2 * bristle),
                    7 + (bristle > 0 ? 1 : 0),
                    -8.5 + (2 * bristle),
                    11 + (0.5 * bristle)
                );
            }
        }

        shapes.Add(new PathShape("larva-fine", pen.ToString()));
    }

    private static void Legs(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var (legs, fine) = (new PathPen(), new PathPen());
        if (traits.Walks)
        {
            ReadOnlySpan<double> feet = [-7, 3, 17, 29, 38];
            for (var leg = 0; leg < feet.Length; leg++)
            {
                var root = 13 + (4.2 * leg);
                // The ground is level, the body is not.
                var sole = 21.3 - ((feet[leg] - 30) * Math.Tan(WalkingDegrees * Math.PI / 180));
                at.Smooth(legs, false, (root, 5), (((root + feet[leg]) / 2) - 1, 9.5), (feet[leg], sole));
            }
        }
        else
        {
            var count = 3 + (int)Math.Round(2 * Math.Min(1, traits.Growth * 3));
            for (var leg = 0; leg < count; leg++)
            {
                var root = 13.5 + (3.7 * leg);
                var (x, y) = (root + 1 + (1.2 * leg), 18.5 - (0.7 * leg));
                at.Smooth(legs, false, (root, 5.5), (root - 2.6 + (0.5 * leg), 11.5), (x, y));
                for (var bristle = 0; bristle < 4; bristle++)
                {
                    var (sin, cos) = Math.SinCos((40 + (26 * bristle)) * Math.PI / 180);
                    at.Stroke(fine, x, y, x + (5.4 * cos), y + (5.4 * sin));
                }
            }
        }

        shapes.Add(new PathShape("larva-limb", legs.ToString()));
        if (!fine.IsEmpty)
        {
            shapes.Add(new PathShape("larva-fine", fine.ToString()));
        }
    }

    private static void Shield(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var tip = traits.EyesStalked ? -4 - (6 * traits.Growth) : -1;
        var spine = new PathPen();
        at.Smooth(spine, false, (14, -7.4), (6, -6.6), (tip, -6.4));
        at.Smooth(spine, false, (tip, -6.4), (5, -4.6), (12, -3.6));
        for (var tooth = 0; tooth < traits.RostralTeeth; tooth++)
        {
            var x = 11 - (tooth * Math.Min(3.2, (11 - tip) / Math.Max(1, traits.RostralTeeth)));
            var y = -7.1 + (0.05 * tooth);
            at.Stroke(spine, x, y, x - 2.2, y - 1.6);
            at.Stroke(spine, x - 2.2, y - 1.6, x - 1.6, y);
        }

        shapes.Add(new PathShape("larva-line", spine.ToString()));
        shapes.Add(
            new PathShape(
                "larva-body",
                at.Smooth(
                    true,
                    (8.4, -3.6),
                    (14, -7.6),
                    (24, -9.4),
                    (33, -8),
                    (36.4, -1.2),
                    (33, 5.4),
                    (24, 7.2),
                    (14, 6),
                    (8.4, 2)
                )
            )
        );
        foreach (var (x, y, r) in new[] { (21.0, 1.5, 1.5), (27.5, -4.5, 1.1), (17.5, -2.5, 0.9) })
        {
            var (px, py) = at.At(x, y);
            shapes.Add(new DiscShape("larva-speck", px, py, r * at.Scale));
        }
    }

    private static (double X, double Y) Eye(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var (x, y, radius) = traits.EyesStalked ? (2.6, -2.4, 3.5) : (11.6, -2.2, 4.2);
        if (traits.EyesStalked)
        {
            shapes.Add(
                new PathShape(
                    Class(traits, LarvaPart.Eyes, "larva-body"),
                    at.Smooth(true, (11, -4), (6.5, -3.9), (4, -4.2), (4, -0.6), (6.5, -0.8), (11, 0))
                )
            );
        }

        var eye = at.At(x, y);
        shapes.Add(new DiscShape("larva-eye", eye.X, eye.Y, radius * at.Scale));
        var (gx, gy) = at.At(x - (radius * 0.32), y - (radius * 0.36));
        shapes.Add(new DiscShape("larva-glint", gx, gy, radius * 0.26 * at.Scale));
        return at.At(x + (traits.EyesStalked ? 2 : 0), y);
    }

    /// <summary>The class of a part: marked where it is what to look for.</summary>
    internal static string Class(LarvaTraits traits, LarvaPart part, string otherwise) =>
        traits.ToLookFor.Contains(part) ? "larva-key" : otherwise;
}
