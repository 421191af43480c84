namespace Broodtide.Phone.Pictures;

/// <summary>Three rings of the tail from the side, with what hangs below them.</summary>
internal static class PleopodsUnderGlass
{
    public static void Draw(List<Shape> shapes, Sketch at, LarvaTraits traits)
    {
        var key = traits.ToLookFor.Contains(LarvaPart.Pleopods) ? "larva-key" : "larva-body";
        var fine = new PathPen();
        foreach (var x in new[] { -16.0, 0, 16 })
        {
            if (traits.Pleopods is Pleopods.Buds)
            {
                shapes.Add(
                    new PathShape(
                        key,
                        at.Smooth(true, (x - 3, 0), (x - 2.6, 8), (x + 1, 11.6), (x + 4, 8), (x + 4, 0))
                    )
                );
            }
            else if (traits.Pleopods is not Pleopods.None)
            {
                foreach (var side in new[] { -1, 1 })
                {
                    shapes.Add(
                        new PathShape(
                            key,
                            at.Smooth(
                                true,
                                (x - 1.8, 0),
                                (x + (side * 2.6) - 1.8, 8),
                                (x + (side * 4) + 0.6, 15),
                                (x + (side * 3) + 2.2, 8),
                                (x + 2.4, 0)
                            )
                        )
                    );
                    for (var bristle = 0; traits.Pleopods is Pleopods.Bristled && bristle < 4; bristle++)
                    {
                        at.Stroke(
                            fine,
                            x + (side * 3.8),
                            13 + (0.5 * bristle),
                            x + (side * (3 + (1.1 * bristle))),
                            17.8 + (0.3 * bristle)
                        );
                    }
                }
            }
        }

        shapes.Add(
            new PathShape(
                "larva-body",
                at.Smooth(
                    true,
                    (-27, -12),
                    (-18, -14.4),
                    (-9, -13.2),
                    (0, -15),
                    (9, -13.2),
                    (18, -14.4),
                    (27, -12),
                    (28, -2),
                    (18, 2.6),
                    (9, 1.2),
                    (0, 3),
                    (-9, 1.2),
                    (-18, 2.6),
                    (-28, -2)
                )
            )
        );
        at.Smooth(fine, false, (-9.4, -13.2), (-7.4, -6), (-9, 1.2));
        at.Smooth(fine, false, (8.6, -13.2), (10.6, -6), (9, 1.2));
        shapes.Add(new PathShape("larva-fine", fine.ToString()));
    }
}
