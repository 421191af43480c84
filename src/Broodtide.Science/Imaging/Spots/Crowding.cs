namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// The share that lies so near another that the two look like one. Where things lie at random with a density, m = density
/// times the area of one is the mean number of others whose middle lies within the radius of a disc of that area; of
/// things that merge so, (1 - exp(-m)) / m are told apart (the loss of counters to coincidence, mean of a Poisson number;
/// derived here). The density is that of the marks about each mark.
/// </summary>
internal static class Crowding
{
    // The neighbourhood in which the density is measured, in radii of one thing: wide enough to hold a few.
    private const double Reach = 6;

    public static double ShareHidden(IReadOnlyList<SpotMark> marks, double area)
    {
        if (marks.Count < 2 || area <= 0)
        {
            return 0;
        }

        var reach = Reach * Math.Sqrt(area / Math.PI);
        var told = 0.0;
        foreach (var mark in marks)
        {
            var near = marks.Count(other =>
                Math.Pow(other.X - mark.X, 2) + Math.Pow(other.Y - mark.Y, 2) <= reach * reach
            );
            var merging = (near - 1) / (Reach * Reach);
            // Each mark stands for so many.
            told += merging > 0 ? merging / (1 - Math.Exp(-merging)) : 1;
        }

        return 1 - (marks.Count / told);
    }
}
