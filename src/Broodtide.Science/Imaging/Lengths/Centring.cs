namespace Broodtide.Science.Imaging.Lengths;

/// <summary>Draws a line to the middle between the two sides of a thing.</summary>
internal static class Centring
{
    public static List<(double X, double Y)> Of(
        List<(double X, double Y)> line,
        Outline outline,
        double thick
    )
    {
        var centred = new List<(double, double)>();
        for (var i = 0; i < line.Count; i++)
        {
            var (before, after) = (line[Math.Max(0, i - 3)], line[Math.Min(line.Count - 1, i + 3)]);
            var (right, down) = (after.X - before.X, after.Y - before.Y);
            var length = Math.Sqrt((right * right) + (down * down));
            var (acrossX, acrossY) = (-down / length, right / length);
            var off =
                Side(line[i], acrossX, acrossY, outline, 2 * thick) is { } one
                && Side(line[i], -acrossX, -acrossY, outline, 2 * thick) is { } other
                    ? (one - other) / 2
                    : 0;
            centred.Add((line[i].X + (off * acrossX), line[i].Y + (off * acrossY)));
        }

        return centred;
    }

    // How far it is to where the contrast is half; none where it is too far, such as along a limb.
    private static double? Side(
        (double X, double Y) from,
        double right,
        double down,
        Outline outline,
        double most
    )
    {
        var above = Rotated.Between(outline.Raised, outline.Shape, from.X, from.Y);
        for (var far = 0.5; far < most; far += 0.5)
        {
            var here = Rotated.Between(
                outline.Raised,
                outline.Shape,
                from.X + (far * right),
                from.Y + (far * down)
            );
            if (here <= 0)
            {
                return above > here ? far - (0.5 * (1 - (above / (above - here)))) : far;
            }

            above = here;
        }

        return null;
    }
}
