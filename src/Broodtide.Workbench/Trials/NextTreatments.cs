using Broodtide.Science.Trials;
using Broodtide.Units;

namespace Broodtide.Workbench.Trials;

/// <summary>One point to try, or the control.</summary>
/// <param name="First">The first thing, such as salinity.</param>
/// <param name="Second">The second, such as temperature.</param>
/// <param name="Share">The share believed there, 5, 50 and 95 %.</param>
/// <param name="Gain">How much better than the best so far it is expected to be, in log odds; 0 for the control.</param>
/// <param name="IsControl">Whether it is the usual treatment, kept in every round.</param>
public sealed record NextTreatment(double First, double Second, Interval Share, double Gain, bool IsControl);

/// <summary>What to try in the next round.</summary>
/// <param name="Treatments">The control first, then the points.</param>
/// <param name="Best">Where it is believed best now, and the share there.</param>
/// <param name="WorthAnother">Whether another round is expected to gain more than the keeper said is worth it.</param>
/// <param name="Remarks">What to mind.</param>
public sealed record NextRound(
    IReadOnlyList<NextTreatment> Treatments,
    NextTreatment Best,
    bool WorthAnother,
    IReadOnlyList<Remark> Remarks
);

/// <summary>The closed range of one thing that is varied, and the steps it is set in.</summary>
/// <param name="Low">Least.</param>
/// <param name="High">Most.</param>
/// <param name="Steps">Steps between them, 0 or more.</param>
public readonly record struct TriedRange(double Low, double High, int Steps)
{
    /// <summary>The settings, from the least to the most.</summary>
    public IEnumerable<double> Settings()
    {
        for (var step = 0; step <= Steps; step++)
        {
            yield return Steps == 0 ? Low : Low + ((High - Low) * step / Steps);
        }
    }
}

/// <summary>
/// Chooses what to try next over two things that are varied, one vessel a point, with the control kept in every round: the
/// points of the greatest expected improvement one after the other, each counted as tried with what is believed of it
/// before the next is chosen (Ginsbourger, Le Riche and Carraro 2010).
/// </summary>
public static class NextTreatments
{
    private const int MostVessels = 20;

    /// <summary>The next round.</summary>
    /// <param name="tried">What was tried so far; may be empty.</param>
    /// <param name="belief">What is believed beforehand.</param>
    /// <param name="first">Range of the first thing.</param>
    /// <param name="second">Range of the second.</param>
    /// <param name="control">The usual treatment.</param>
    /// <param name="vessels">Vessels in the round, the control among them, 2 to 20.</param>
    /// <param name="larvae">Larvae in each.</param>
    /// <param name="worthIt">Gain in log odds below which another round is not worth it.</param>
    /// <exception cref="ArgumentOutOfRangeException">Vessels or larvae outside their limits.</exception>
    public static NextRound Of(
        IReadOnlyList<TriedPoint> tried,
        SurfaceBelief belief,
        TriedRange first,
        TriedRange second,
        (double First, double Second) control,
        int vessels,
        int larvae,
        double worthIt = 0.1
    )
    {
        Finite.Within(vessels, 2, MostVessels);
        Finite.Within(larvae, 1, 100_000);
        var surface = ResponseSurface.Of(tried, belief);
        var grid = (
            from one in first.Settings()
            from other in second.Settings()
            select (one, other)
        ).ToList();
        var place = grid.MaxBy(at => surface.At(at.one, at.other).Mean);
        var chosen = new List<NextTreatment>
        {
            new(
                control.First,
                control.Second,
                surface.ShareAt(control.First, control.Second),
                0,
                IsControl: true
            ),
        };
        var supposed = tried.Append(Believed(surface, control, larvae)).ToList();
        while (chosen.Count < vessels)
        {
            var so = ResponseSurface.Of(supposed, belief);
            var best = supposed.Max(point => so.At(point.First, point.Second).Mean);
            var (next, gain) = grid.Select(at =>
                {
                    var (mean, deviation) = so.At(at.one, at.other);
                    return (At: at, Gain: NextPoint.ExpectedImprovement(mean, deviation, best));
                })
                .MaxBy(pair => pair.Gain);
            chosen.Add(
                new(next.one, next.other, surface.ShareAt(next.one, next.other), gain, IsControl: false)
            );
            supposed.Add(Believed(so, next, larvae));
        }

        var top = new NextTreatment(
            place.one,
            place.other,
            surface.ShareAt(place.one, place.other),
            0,
            IsControl: false
        );
        var worth = chosen[1].Gain >= worthIt;
        return new(chosen, top, worth, [.. Remarks(tried, worth)]);
    }

    private static TriedPoint Believed(ResponseSurface surface, (double First, double Second) at, int larvae)
    {
        var share = surface.ShareAt(at.First, at.Second).Middle;
        return new(at.First, at.Second, new((int)Math.Round(share * larvae), larvae));
    }

    private static IEnumerable<Remark> Remarks(IReadOnlyList<TriedPoint> tried, bool worth)
    {
        if (tried.Count == 0)
        {
            yield return new Remark("trial-nothing-tried");
        }

        if (!worth)
        {
            yield return new Remark("trial-stop");
        }

        yield return new Remark("trial-next-is-no-test");
    }
}
