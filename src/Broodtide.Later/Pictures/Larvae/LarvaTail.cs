namespace Broodtide.Phone.Pictures;

/// <summary>The rings of the tail from the side, what hangs below them, and the fan at their end.</summary>
internal static class LarvaTail
{
    private const double From = 33;
    private const double Length = 50;
    private const int Segments = 6;

    // The middle line of the tail: a zoea's hangs down a little at its end.
    public static double Middle(double part, LarvaTraits traits) =>
        -1.4 - (2.2 * Math.Sin(Math.PI * part)) + ((traits.Walks ? 1.5 : 5) * part * part * part);

    private static double Half(double part) => 6.3 - (3.6 * part);

    public static void PleopodsBelow(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        if (traits.Pleopods is Pleopods.None)
        {
            return;
        }

        var length = traits.Pleopods is Pleopods.Buds ? 4.2 : 7.4;
        var (lobes, fine) = (new PathPen(), new PathPen());
        for (var segment = 0; segment < Segments - 1; segment++)
        {
            var part = (segment + 0.55) / Segments;
            var (x, y) = (From + (Length * part), Middle(part, traits) + Half(part) - 0.6);
            at.Smooth(lobes, true, (x - 1.4, y), (x - 0.4, y + length), (x + 1.6, y + length), (x + 1.8, y));
            for (var bristle = 0; traits.Pleopods is Pleopods.Bristled && bristle < 3; bristle++)
            {
                at.Stroke(fine, x + (0.6 * bristle), y + length, x - 0.6 + (1.8 * bristle), y + length + 3);
            }
        }

        shapes.Add(
            new PathShape(LarvaSide.Class(traits, LarvaPart.Pleopods, "larva-body"), lobes.ToString())
        );
        if (!fine.IsEmpty)
        {
            shapes.Add(new PathShape("larva-fine", fine.ToString()));
        }
    }

    public static void Rings(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var (above, below, joints) = (
            new List<(double X, double Y)>(),
            new List<(double X, double Y)>(),
            new PathPen()
        );
        for (var segment = 0; segment <= Segments; segment++)
        {
            var part = segment / (double)Segments;
            var (x, y, half) = (From + (Length * part), Middle(part, traits), Half(part));
            above.Add((x, y - half));
            below.Add((x, y + half));
            if (segment is > 0 and < Segments)
            {
                at.Smooth(joints, false, (x - 0.4, y - half), (x + 1.2, y), (x - 0.2, y + half));
            }

            if (segment < Segments)
            {
                // Each ring swells a little between its joints.
                var next = (segment + 0.5) / Segments;
                var (mx, my, mh) = (From + (Length * next), Middle(next, traits), Half(next) + 0.75);
                above.Add((mx, my - mh));
                below.Add((mx, my + mh));
            }
        }

        below.Reverse();
        shapes.Add(new PathShape("larva-body", at.Smooth(true, [.. above, .. below])));
        shapes.Add(new PathShape("larva-fine", joints.ToString()));
        // The gut shows through.
        shapes.Add(
            new PathShape(
                "larva-gut",
                at.Smooth(
                    false,
                    (22, -3),
                    (34, -2.4),
                    (48, -3.6),
                    (62, Middle(0.58, traits) - 1),
                    (79, Middle(0.92, traits))
                )
            )
        );
    }

    public static Sketch Fan(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var end = Middle(1, traits);
        var fan = at.Inside(From + Length - 0.5, end, 1, traits.Walks ? 4 : 16);
        var bristles = new PathPen();
        if (traits.OuterBranches)
        {
            Blade(shapes, fan, bristles, 14, 15.5, 3);
        }

        if (traits.InnerBranches)
        {
            Blade(shapes, fan, bristles, 7, 14.5, 2.6);
        }

        var wide = traits.TailPlateRectangle ? 2.6 : 6.2;
        shapes.Add(
            new PathShape(
                "larva-body",
                fan.Smooth(
                    true,
                    (0, -2.4),
                    (7, -2.6 - ((wide - 2.6) * 0.4)),
                    (12.5, -wide),
                    (13.2, 0),
                    (12.5, wide),
                    (7, 2.6 + ((wide - 2.6) * 0.4)),
                    (0, 2.4)
                )
            )
        );
        var rays = traits.TailPlateRectangle ? 4 : 7;
        for (var ray = 0; ray < rays; ray++)
        {
            var across = (2.0 * ray / (rays - 1)) - 1;
            fan.Stroke(
                bristles,
                12.8,
                across * wide * 0.95,
                12.8 + (5.5 - (1.2 * Math.Abs(across))),
                across * (wide + 2.6)
            );
        }

        shapes.Add(new PathShape("larva-fine", bristles.ToString()));
        return fan;
    }

    private static void Blade(
        List<Shape> shapes,
        Sketch fan,
        PathPen bristles,
        double degrees,
        double length,
        double half
    )
    {
        foreach (var side in new[] { -1, 1 })
        {
            var blade = fan.Inside(0, side * 1.6, 1, side * degrees);
            shapes.Add(
                new PathShape(
                    "larva-body",
                    blade.Smooth(
                        true,
                        (0, -1),
                        (length * 0.6, -half),
                        (length, 0),
                        (length * 0.6, half),
                        (0, 1)
                    )
                )
            );
            foreach (var bristle in Enumerable.Range(0, 3))
            {
                var y = (bristle - 1) * half * 0.8;
                blade.Stroke(bristles, length - Math.Abs(y) * 0.7, y, length + 3.6, y * 1.5);
            }
        }
    }
}
