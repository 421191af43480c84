using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Looking;

/// <summary>Pairs marks with truths, one to one, the nearest pair first.</summary>
public static class Matching
{
    /// <summary>How many pairs lie within reach.</summary>
    public static int Pairs(IReadOnlyList<TrueSpot> truth, IReadOnlyList<(double X, double Y)> marks)
    {
        var near =
            from t in Enumerable.Range(0, truth.Count)
            from m in Enumerable.Range(0, marks.Count)
            let apart = Math.Sqrt(Math.Pow(truth[t].X - marks[m].X, 2) + Math.Pow(truth[t].Y - marks[m].Y, 2))
            where apart <= truth[t].Reach
            orderby apart
            select (t, m);
        var (usedTruth, usedMarks) = (new HashSet<int>(), new HashSet<int>());
        var pairs = 0;
        foreach (var (t, m) in near)
        {
            if (!usedTruth.Contains(t) && !usedMarks.Contains(m))
            {
                usedTruth.Add(t);
                usedMarks.Add(m);
                pairs++;
            }
        }

        return pairs;
    }

    /// <summary>The agreement of marks with truths.</summary>
    public static double F1(IReadOnlyList<TrueSpot> truth, IReadOnlyList<SpotMark> marks) =>
        F1(Pairs(truth, [.. marks.Select(mark => (mark.X, mark.Y))]), truth.Count, marks.Count);

    /// <summary>Twice the pairs over truths and marks together; 1 where there is neither.</summary>
    public static double F1(int pairs, int truths, int marks) =>
        truths + marks == 0 ? 1 : 2.0 * pairs / (truths + marks);
}
