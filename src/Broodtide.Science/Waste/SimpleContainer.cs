using Broodtide.Units;

namespace Broodtide.Science.Waste;

/// <summary>Nitrogen in a litre of water, mg as N.</summary>
/// <param name="Algae">In living algae.</param>
/// <param name="Detritus">In what has died and was not eaten.</param>
/// <param name="Tan">In ammonia and ammonium.</param>
/// <param name="Nitrate">In nitrate.</param>
public readonly record struct NitrogenStocks(double Algae, double Detritus, double Tan, double Nitrate)
{
    /// <summary>All of it, mg/L.</summary>
    public double Total => Algae + Detritus + Tan + Nitrate;
}

/// <summary>What a simple container is told. Rates per day, amounts mg of nitrogen a litre.</summary>
public sealed record SimpleContainerSettings
{
    private double _grazing;
    private double _feed;
    private double _filter;

    /// <summary>Growth of the algae with nitrogen in plenty, 1/d.</summary>
    public double GrowthPerDay { get; init; } = 0.3;

    /// <summary>Nitrogen at which the algae grow half as fast, mg/L.</summary>
    public double HalfGrowth { get; init; } = 0.014;

    /// <summary>Algae that die, 1/d.</summary>
    public double DeathPerDay { get; init; } = 0.05;

    /// <summary>Detritus that turns into ammonia, 1/d.</summary>
    public double DecayPerDay { get; init; } = 0.1;

    /// <summary>Ammonia at which the filter takes half as much, mg/L.</summary>
    public double HalfFilter { get; init; } = 1;

    /// <summary>Ammonia that the larvae give off, mg/L/d.</summary>
    public double ExcretionPerDay { get; init; } = 0.028;

    /// <summary>Algae eaten, 1/d, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public double GrazingPerDay
    {
        get => _grazing;
        init => _grazing = Finite.NotNegative(value);
    }

    /// <summary>Feed that is not eaten, mg/L/d, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public double FeedPerDay
    {
        get => _feed;
        init => _feed = Finite.NotNegative(value);
    }

    /// <summary>The most that the filter takes, mg/L/d, 0 or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public double FilterPerDay
    {
        get => _filter;
        init => _filter = Finite.NotNegative(value);
    }

    /// <summary>Share of the water changed at the end of each day, for clean water.</summary>
    public Probability ChangedPerDay { get; init; }
}

/// <summary>
/// The least model that tells a green container from an overfed clear one: algae, detritus, ammonia and nitrate of one
/// litre. Ammonia is taken up before nitrate in proportion to what is there. Left out on purpose: oxygen at night, pH,
/// light and the crash of a culture. The numbers it starts with are assumptions of this project.
/// </summary>
public static class SimpleContainer
{
    private const int Algae = 0;
    private const int Detritus = 1;
    private const int Tan = 2;
    private const int Nitrate = 3;
    private const int Outside = 4;

    /// <summary>The stocks after whole days, the change of water of the last day included.</summary>
    /// <param name="start">What is there at the start; each 0 or more.</param>
    /// <param name="settings">What goes on.</param>
    /// <param name="days">Whole days, 0 or more.</param>
    /// <param name="stepsPerDay">Steps a day, 1 or more; 100 keep three digits.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static NitrogenStocks After(
        NitrogenStocks start,
        SimpleContainerSettings settings,
        int days,
        int stepsPerDay = 100
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(days);
        ArgumentOutOfRangeException.ThrowIfLessThan(stepsPerDay, 1);
        Span<double> stocks =
        [
            Finite.NotNegative(start.Algae),
            Finite.NotNegative(start.Detritus),
            Finite.NotNegative(start.Tan),
            Finite.NotNegative(start.Nitrate),
        ];
        ReadOnlySpan<double> supply = [0, settings.FeedPerDay, settings.ExcretionPerDay, 0];
        TransferStep.Rates rates = (held, moved) => Fill(held, moved, settings);
        for (var day = 0; day < days; day++)
        {
            for (var step = 0; step < stepsPerDay; step++)
            {
                TransferStep.Take(stocks, supply, rates, 1.0 / stepsPerDay);
            }

            foreach (ref var stock in stocks)
            {
                stock *= settings.ChangedPerDay.Opposite;
            }
        }

        return new(stocks[Algae], stocks[Detritus], stocks[Tan], stocks[Nitrate]);
    }

    private static void Fill(
        ReadOnlySpan<double> stocks,
        Span<double> rates,
        SimpleContainerSettings settings
    )
    {
        var nitrogen = stocks[Tan] + stocks[Nitrate];
        // Uptake u = mu A (T+N)/(K+T+N), shared by what is there: the same rate of both stocks.
        var uptake = settings.GrowthPerDay * stocks[Algae] / (settings.HalfGrowth + nitrogen);
        Set(rates, Tan, Algae, uptake);
        Set(rates, Nitrate, Algae, uptake);
        Set(rates, Algae, Outside, settings.GrazingPerDay);
        Set(rates, Algae, Detritus, settings.DeathPerDay);
        Set(rates, Detritus, Tan, settings.DecayPerDay);
        Set(rates, Tan, Nitrate, settings.FilterPerDay / (settings.HalfFilter + stocks[Tan]));
    }

    private static void Set(Span<double> rates, int from, int to, double rate) =>
        rates[(from * (Outside + 1)) + to] = rate;
}
