namespace Broodtide.Phone.Pictures;

/// <summary>The tail from above, its end to the right.</summary>
internal static class TailUnderGlass
{
    public static void Draw(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var bristles = new PathPen();
        if (traits.OuterBranches)
        {
            Branches(shapes, at, bristles, traits, LarvaPart.OuterBranches, 38, 27.5);
        }

        if (traits.InnerBranches)
        {
            Branches(shapes, at, bristles, traits, LarvaPart.InnerBranches, 21, 26.5);
        }

        if (!bristles.IsEmpty)
        {
            shapes.Add(new PathShape("larva-fine", bristles.ToString()));
        }

        Plate(shapes, at, traits);
        shapes.Add(
            new PathShape(
                "larva-body",
                at.Smooth(
                    true,
                    (-29, -7),
                    (-20, -7),
                    (-12.6, -5.4),
                    (-11.6, 0),
                    (-12.6, 5.4),
                    (-20, 7),
                    (-29, 7)
                )
            )
        );
    }

    // The plate narrows as the branches come.
    private static void Plate(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var narrow =
            traits.TailPlateRectangle ? 1
            : traits.InnerBranches ? 0.52
            : traits.OuterBranches ? 0.25
            : 0;
        var half = 14.2 - (8.6 * narrow);
        var end = 7 + (4 * narrow);
        var dent = 2.4 * (1 - (1.3 * narrow));
        var key = traits.ToLookFor.Contains(LarvaPart.TailPlate) ? "larva-key" : "larva-body";
        var pen = new PathPen();
        var (waist, side) = (4.4 + (1 * narrow), (4.4 + half) / 2 - (1.6 * (1 - narrow)));
        var corner = at.At(-13, -waist);
        pen.Move(corner.X, corner.Y);
        Curve(pen, at, (-6, -waist - 0.2), (-1, -side), (end, -half));
        Curve(pen, at, (end - (dent * 0.7), -half * 0.6), (end - dent, -half * 0.3), (end - dent, 0));
        Curve(pen, at, (end - dent, half * 0.3), (end - (dent * 0.7), half * 0.6), (end, half));
        Curve(pen, at, (-1, side), (-6, waist + 0.2), (-13, waist));
        shapes.Add(new PathShape(key, pen.Close().ToString()));
        Bristles(shapes, at, traits, half, end, dent, narrow);
    }

    private static void Bristles(
        List<Shape> shapes,
        Sketch at,
        LarvaTraits traits,
        double half,
        double end,
        double dent,
        double narrow
    )
    {
        var pen = new PathPen();
        for (var bristle = 0; bristle < traits.TailBristles; bristle++)
        {
            // From one corner of the plate to the other, no bristle in the middle of an even row.
            var across = traits.TailBristles == 1 ? 0 : (2.0 * bristle / (traits.TailBristles - 1)) - 1;
            var x = end - (dent * (1 - (across * across)));
            var length = (15.5 - (3.5 * across * across)) * (1 - (0.35 * narrow));
            var (sin, cos) = Math.SinCos(across * (46 - (24 * narrow)) * Math.PI / 180);
            at.Stroke(pen, x, across * half, x + (length * cos), (across * half) + (length * sin));
        }

        var isKey = traits.ToLookFor.Contains(LarvaPart.TailBristles);
        shapes.Add(new PathShape(isKey ? "larva-bristle" : "larva-fine", pen.ToString()));
    }

    private static void Branches(
        List<Shape> shapes,
        Sketch at,
        PathPen bristles,
        LarvaTraits traits,
        LarvaPart part,
        double degrees,
        double length
    )
    {
        var key = traits.ToLookFor.Contains(part) ? "larva-key" : "larva-body";
        foreach (var side in new[] { -1, 1 })
        {
            var blade = at.Inside(-12.5, side * 3.6, 1, side * degrees);
            shapes.Add(
                new PathShape(
                    key,
                    blade.Smooth(
                        true,
                        (0, -1.6),
                        (length * 0.45, -3.6),
                        (length * 0.85, -3.4),
                        (length, 0),
                        (length * 0.85, 3.4),
                        (length * 0.45, 3.6),
                        (0, 1.6)
                    )
                )
            );
            foreach (var bristle in Enumerable.Range(0, 5))
            {
                var y = (bristle - 2) * 1.6;
                blade.Stroke(bristles, length - (y * y * 0.28), y, length + 6 - (y * y * 0.28), y * 1.7);
            }
        }
    }

    private static void Curve(
        PathPen pen,
        Sketch at,
        (double X, double Y) first,
        (double X, double Y) second,
        (double X, double Y) to
    )
    {
        var (a, b, c) = (at.At(first.X, first.Y), at.At(second.X, second.Y), at.At(to.X, to.Y));
        pen.Curve(a.X, a.Y, b.X, b.Y, c.X, c.Y);
    }
}
