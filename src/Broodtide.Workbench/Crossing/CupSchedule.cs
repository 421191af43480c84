using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>One pour in the cup: litres drawn off before, litres of source added, and the cup after.</summary>
internal sealed record CupMove(double DrawnLitres, double AddedLitres, WaterMass After);

/// <summary>
/// The pours that bring the cup to a salinity. First choice: add equal amounts, draw nothing off. Where the cup is
/// too small or the source too little: exchange by an equal factor each time, drawing off through mesh no more than
/// is needed, down to the least water the animals may be left in.
/// </summary>
internal sealed record CupSchedule(IReadOnlyList<CupMove> Moves, double SourceLitres)
{
    /// <summary>
    /// The cup is never brought nearer to the source than this, in practical salinity: finer than the instruments
    /// of the trade tell apart, and each halving of the distance costs another exchange.
    /// </summary>
    public const double NearestToSource = 0.1;

    /// <summary>Changes below this, in practical salinity, are no change.</summary>
    public const double NoChange = 1e-9;

    private const int MostPours = 400;

    // Room left so that rounding never fills the cup over its rim.
    private const double BelowRim = 1 - 1e-9;

    private static readonly CupSchedule Nothing = new([], 0);

    /// <summary>Whether a source can bring water towards a target at all.</summary>
    public static bool SourceReaches(double start, double target, double source) =>
        Math.Abs(target - start) < NoChange
        || (target > start ? source - target >= NearestToSource : target - source >= NearestToSource);

    /// <summary>Finds the pours, or null where the source is too little or reaches the target not at all.</summary>
    /// <param name="order">The order.</param>
    /// <param name="target">Practical salinity to reach.</param>
    /// <param name="neededLitres">Least source water that does it; 0 where the source does not reach.</param>
    public static CupSchedule? Find(CrossingOrder order, double target, out double neededLitres)
    {
        neededLitres = 0;
        var start = order.Cup.Salinity.Practical;
        if (Math.Abs(target - start) < NoChange)
        {
            return Nothing;
        }

        if (!SourceReaches(start, target, order.Source.Salinity.Practical))
        {
            return null;
        }

        var wished = WishedPours(order);
        var adding = AddOnly(order, target, wished);
        if (adding is not null)
        {
            return adding;
        }

        var pours = wished;
        var most = order.CupCapacity.Litres;
        var roomy = Exchange(order, target, pours, most);
        while (roomy is null)
        {
            pours += Math.Max(1, pours / 4);
            if (pours > MostPours)
            {
                return null;
            }

            roomy = Exchange(order, target, pours, most);
        }

        var atHand = order.Source.Volume.Litres;
        if (roomy.SourceLitres <= atHand)
        {
            return roomy;
        }

        var least = LeastLitres(order);
        var thrifty = Exchange(order, target, pours, least);
        if (thrifty is null || thrifty.SourceLitres > atHand)
        {
            neededLitres = thrifty?.SourceLitres ?? roomy.SourceLitres;
            return null;
        }

        return Gentlest(order, target, pours, (least, most), thrifty);
    }

    /// <summary>Pours wished: as ordered, else about one a minute, at most ten.</summary>
    public static int WishedPours(CrossingOrder order) =>
        order.WantedSteps ?? (int)Math.Clamp(Math.Ceiling(order.WantedMinutes), 1, 10);

    /// <summary>Least water with the animals, litres.</summary>
    public static double LeastLitres(CrossingOrder order) =>
        order.LeastWithAnimals?.Litres ?? (order.Cup.Volume.Litres / 5);

    // The exchange that leaves the animals the most water and still makes do with the source.
    private static CupSchedule Gentlest(
        CrossingOrder order,
        double target,
        int pours,
        (double Enough, double TooMuch) keepLitres,
        CupSchedule best
    )
    {
        var (low, high) = keepLitres;
        for (var i = 0; i < 40; i++)
        {
            var middle = (low + high) / 2;
            var trial = Exchange(order, target, pours, middle);
            if (trial is not null && trial.SourceLitres <= order.Source.Volume.Litres)
            {
                (low, best) = (middle, trial);
            }
            else
            {
                high = middle;
            }
        }

        return best;
    }

    private static CupSchedule? AddOnly(CrossingOrder order, double target, int pours)
    {
        var cup = WaterMass.From(order.Cup);
        var source = order.Source;
        var (s, t) = (source.Salinity.Practical, source.Temperature.Celsius);
        var sourceDensity = WaterMass.GramsPerLitre(s, t);
        var total = cup.Grams * (target - cup.SalinityPractical) / (s - target);
        var litres = total / sourceDensity;
        if (litres > source.Volume.Litres || order.Cup.Volume.Litres + litres > order.CupCapacity.Litres)
        {
            return null;
        }

        var moves = new List<CupMove>(pours);
        for (var i = 0; i < pours; i++)
        {
            cup += WaterMass.Of(total / pours, s, t);
            moves.Add(new(0, litres / pours, cup));
        }

        return moves.TrueForAll(m => m.After.Litres <= order.CupCapacity.Litres) ? new(moves, litres) : null;
    }

    // Each pour shrinks the distance to the source by the same factor; of the cup at most keepLitres stay in.
    private static CupSchedule? Exchange(CrossingOrder order, double target, int pours, double keepLitres)
    {
        var cup = WaterMass.From(order.Cup);
        var (s, t) = (order.Source.Salinity.Practical, order.Source.Temperature.Celsius);
        var sourceDensity = WaterMass.GramsPerLitre(s, t);
        var perGramKept = Math.Pow((s - order.Cup.Salinity.Practical) / (s - target), 1.0 / pours) - 1;
        var least = LeastLitres(order);
        var moves = new List<CupMove>(pours);
        var used = 0.0;
        for (var i = 0; i < pours; i++)
        {
            var density = WaterMass.GramsPerLitre(cup.SalinityPractical, cup.Celsius);
            var mixed = cup.Part(1) + WaterMass.Of(perGramKept, s, t);
            var litresPerGramKept = Math.Max((1 / density) + (perGramKept / sourceDensity), mixed.Litres);
            var keep = Math.Min(
                Math.Min(cup.Grams, keepLitres * density),
                BelowRim * order.CupCapacity.Litres / litresPerGramKept
            );
            // A hair of room: the least litres may be the very number asked for.
            if (keep < least * density * BelowRim)
            {
                return null;
            }

            var drawn = cup.Grams - keep;
            var added = keep * perGramKept;
            cup = cup.Without(drawn) + WaterMass.Of(added, s, t);
            used += added / sourceDensity;
            moves.Add(new(drawn / density, added / sourceDensity, cup));
        }

        return new(moves, used);
    }
}
