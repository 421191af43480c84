namespace Broodtide.Phone.Pictures;

/// <summary>The head from above, its front to the left.</summary>
internal static class HeadUnderGlass
{
    public static void Draw(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var key = traits.ToLookFor.Contains(LarvaPart.Eyes) ? "larva-key" : "larva-body";
        if (traits.EyesStalked)
        {
            foreach (var side in new[] { -1, 1 })
            {
                shapes.Add(
                    new PathShape(
                        key,
                        at.Smooth(
                            true,
                            (4, side * 4),
                            (-5, side * 9.6),
                            (-10, side * 12.4),
                            (-7.4, side * 17),
                            (-1, side * 13.6),
                            (7, side * 9)
                        )
                    )
                );
            }

            Shield(shapes, at, 10.2, 5.6);
            Eyes(shapes, at, -11.4, 17, 5.9);
            return;
        }

        Shield(shapes, at, 14.6, 12.6);
        Eyes(shapes, at, -8.2, 8.6, 6.4);
    }

    // A shield that widens from its front to where the glass cuts it.
    private static void Shield(List<Shape> shapes, Sketch at, double middle, double front) =>
        shapes.Add(
            new PathShape(
                "larva-body",
                at.Smooth(
                    true,
                    (27.5, -12.4),
                    (14, -middle - 0.4),
                    (2, -middle),
                    (-8, -front),
                    (-14.5, -front * 0.42),
                    (-24.5, 0),
                    (-14.5, front * 0.42),
                    (-8, front),
                    (2, middle),
                    (14, middle + 0.4),
                    (27.5, 12.4)
                )
            )
        );

    private static void Eyes(List<Shape> shapes, Sketch at, double x, double y, double radius)
    {
        foreach (var side in new[] { -1, 1 })
        {
            var (ex, ey) = at.At(x, side * y);
            shapes.Add(new DiscShape("larva-eye", ex, ey, radius * at.Scale));
            shapes.Add(
                new DiscShape("larva-glint", ex - (radius * 0.3), ey - (radius * 0.36), radius * 0.24)
            );
        }
    }
}
