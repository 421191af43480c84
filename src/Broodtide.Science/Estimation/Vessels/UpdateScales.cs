using Broodtide.Science.Water;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// The scales on which members are moved: logarithms of what cannot be negative, log odds of shares, oxygen and pH as they
/// are. Whatever comes back lies within its bounds.
/// </summary>
internal sealed class UpdateScales
{
    // Stocks whose logarithm is moved, each above an amount that is as good as none, mg/L or meq/L; carbon follows from pH
    // and alkalinity.
    private static readonly (int Stock, double Floor)[] Amounts =
    [
        (Stock.Algae, 1e-3),
        (Stock.Film, 1e-3),
        (Stock.Suspended, 1e-3),
        (Stock.Settled, 1e-3),
        (Stock.Tan, 5e-3),
        (Stock.Nitrite, 2e-3),
        (Stock.Nitrate, 2e-2),
        (Stock.SuspendedDemand, 1e-2),
        (Stock.SettledDemand, 1e-2),
        (Stock.Alkalinity, 1e-3),
        (Stock.SaltAlkalinity, 1e-3),
    ];

    // Share of the thickest film that is as good as none.
    private const double FilmFloor = 1e-3;

    private static readonly int[] Shares = [Stock.AmmoniaOxidisers, Stock.NitriteOxidisers];

    private readonly CarbonateTerms _carbonate;
    private readonly double _mostOxygen;
    private readonly double _walls;

    internal UpdateScales(VesselHour hour, VesselSite site)
    {
        _carbonate = new(hour.Salinity, hour.Temperature);
        _mostOxygen =
            VesselStep.MostOfSaturation
            * OxygenSaturation.At(hour.Salinity, hour.Temperature).Value.MilligramsPerLitre;
        _walls = site.WallSquareCentimetresPerLitre;
    }

    // Amounts, shares, oxygen, hydrogen ions, then parameters.
    internal static int Count => Amounts.Length + Shares.Length + 2 + VesselEnsemble.ParameterCount;

    /// <summary>A measured number on its scale: nitrogen and cells as logarithms above what nobody can read.</summary>
    internal static double Scaled(VesselReading.Measured measured, double value) =>
        measured.Quantity is VesselQuantity.Oxygen or VesselQuantity.PHNbs
            ? value
            : Math.Log(value + Least(measured));

    internal static double ErrorOf(VesselReading.Measured measured)
    {
        var sd = Math.Sqrt(
            (measured.Sd * measured.Sd) + (measured.Share * measured.Share * measured.Value * measured.Value)
        );
        return measured.Quantity is VesselQuantity.Oxygen or VesselQuantity.PHNbs
            ? sd
            : sd / (measured.Value + Least(measured));
    }

    // Twice the error at nothing: above it a logarithm, below it a straight line.
    private static double Least(VesselReading.Measured measured) => 2 * measured.Sd;

    /// <summary>What each member supposes of a reading, on its scale.</summary>
    internal void Suppose(VesselEnsemble now, VesselReading reading, double[] supposed)
    {
        for (var i = 0; i < supposed.Length; i++)
        {
            supposed[i] = reading switch
            {
                VesselReading.Measured measured => Scaled(measured, ValueOf(measured.Quantity, now, i)),
                VesselReading.ColourSeen => Math.Log(now.Stocks[Stock.Algae][i] + Amounts[0].Floor),
                _ => Math.Log(
                    (
                        now.Stocks[Stock.Film][i]
                        / Math.Max(
                            1e-12,
                            _walls
                                * now.Parameters[(int)VesselParameter.ThickFilmMilligramsPerSquareCentimetre][
                                    i
                                ]
                        )
                    ) + FilmFloor
                ),
            };
        }
    }

    /// <summary>Numbers of all members of one kind, on its scale.</summary>
    internal static void Take(VesselEnsemble from, int kind, double[] values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = Kind(kind) switch
            {
                (Scale.Amount, var amount) => Math.Log(
                    from.Stocks[Amounts[amount].Stock][i] + Amounts[amount].Floor
                ),
                (Scale.Share, var stock) => LogOdds(from.Stocks[stock][i]),
                (Scale.Oxygen, var stock) => from.Stocks[stock][i],
                (Scale.Acid, var stock) => Math.Log(from.Stocks[stock][i]),
                (Scale.Logarithm, var row) => Math.Log(Math.Max(1e-300, from.Parameters[row][i])),
                (_, var row) => from.Parameters[row][i],
            };
        }
    }

    /// <summary>Puts them back within their bounds, into the copies that fill the arrays too.</summary>
    internal void Put(VesselEnsemble into, int kind, double[] values)
    {
        var (scale, at) = Kind(kind);
        var array = scale switch
        {
            Scale.Amount => into.Stocks[Amounts[at].Stock],
            Scale.Logarithm or Scale.Plain => into.Parameters[at],
            _ => into.Stocks[at],
        };
        for (var i = 0; i < array.Length; i++)
        {
            var value = values[Math.Min(i, values.Length - 1)];
            array[i] = scale switch
            {
                Scale.Amount => Math.Max(0, Math.Exp(Math.Min(value, 12)) - Amounts[at].Floor),
                Scale.Share => 1 / (1 + Math.Exp(-Math.Clamp(value, -20, 20))),
                Scale.Oxygen => Math.Clamp(value, 0, _mostOxygen),
                Scale.Acid => Math.Clamp(Math.Exp(value), _carbonate.Least, _carbonate.Most),
                Scale.Logarithm => Bounded(into, at, Math.Exp(value)),
                _ => Bounded(into, at, value),
            };
        }
    }

    /// <summary>
    /// Puts what was read itself where its scale says. An amount that its line has moved less far stays there: a line bends
    /// upwards high above its floor, and the scale of a coarse reading would lift what is nothing.
    /// </summary>
    internal void PutRead(VesselEnsemble into, VesselEnsemble before, VesselReading reading, double[] scaled)
    {
        var thick = into.Parameters[(int)VesselParameter.ThickFilmMilligramsPerSquareCentimetre];
        for (var i = 0; i < into.Stocks[0].Length; i++)
        {
            var told = scaled[Math.Min(i, scaled.Length - 1)];
            var (stock, value) = reading switch
            {
                VesselReading.ColourSeen => (Stock.Algae, Amount(told, Amounts[0].Floor)),
                VesselReading.FilmSeen => (Stock.Film, Amount(told, FilmFloor) * thick[i] * _walls),
                VesselReading.Measured { Quantity: VesselQuantity.Oxygen } => (
                    Stock.Oxygen,
                    Math.Clamp(told, 0, _mostOxygen)
                ),
                VesselReading.Measured { Quantity: VesselQuantity.PHNbs } => (
                    Stock.Hydrogen,
                    _carbonate.HydrogenAt(told)
                ),
                VesselReading.Measured { Quantity: VesselQuantity.CellsPerMillilitre } cells => (
                    Stock.Algae,
                    Amount(told, Least(cells)) * VesselEnsemble.Cells(into.Parameters, i)
                ),
                VesselReading.Measured measured => (
                    measured.Quantity switch
                    {
                        VesselQuantity.Tan => Stock.Tan,
                        VesselQuantity.Nitrite => Stock.Nitrite,
                        _ => Stock.Nitrate,
                    },
                    Amount(told, Least(measured))
                ),
                _ => throw new ArgumentException($"{reading.GetType().Name} is not known.", nameof(reading)),
            };
            var (held, line) = (before.Stocks[stock][i], into.Stocks[stock][i]);
            if (stock is Stock.Oxygen or Stock.Hydrogen || Math.Abs(value - held) < Math.Abs(line - held))
            {
                into.Stocks[stock][i] = value;
            }
        }

        static double Amount(double logarithm, double floor) =>
            Math.Max(0, Math.Exp(Math.Min(logarithm, 40)) - floor);
    }

    /// <summary>Carbon that belongs to the new pH and alkalinity; and how much nitrogen the reading brought or took.</summary>
    internal void Settle(VesselEnsemble after, VesselEnsemble before)
    {
        for (var i = 0; i < after.Stocks[0].Length; i++)
        {
            var carbon = _carbonate.CarbonAt(
                after.Stocks[Stock.Alkalinity][i],
                after.Stocks[Stock.Hydrogen][i]
            );
            if (carbon > 1e-6)
            {
                after.Stocks[Stock.Carbon][i] = carbon;
            }
            else
            {
                after.Stocks[Stock.Hydrogen][i] = _carbonate.Hydrogen(
                    after.Stocks[Stock.Carbon][i],
                    after.Stocks[Stock.Alkalinity][i]
                );
            }

            var change = 0.0;
            for (var stock = 0; stock < Stock.Nitrogen; stock++)
            {
                change += after.Stocks[stock][i] - before.Stocks[stock][i];
            }

            after.Stocks[Stock.Corrected][i] += change * after.Litres;
        }
    }

    private static (Scale Scale, int At) Kind(int kind)
    {
        if (kind < Amounts.Length)
        {
            return (Scale.Amount, kind);
        }

        kind -= Amounts.Length;
        if (kind < Shares.Length)
        {
            return (Scale.Share, Shares[kind]);
        }

        kind -= Shares.Length;
        return kind switch
        {
            0 => (Scale.Oxygen, Stock.Oxygen),
            1 => (Scale.Acid, Stock.Hydrogen),
            _ when kind - 2 == (int)VesselParameter.LarvaeError => (Scale.Plain, kind - 2),
            _ => (Scale.Logarithm, kind - 2),
        };
    }

    private static double Bounded(VesselEnsemble members, int row, double value) =>
        Math.Clamp(value, members.Priors.Rows[row].Lowest, members.Priors.Rows[row].Highest);

    private static double LogOdds(double share)
    {
        var within = Math.Clamp(share, 1e-9, 1 - 1e-9);
        return Math.Log(within / (1 - within));
    }

    private double ValueOf(VesselQuantity quantity, VesselEnsemble now, int member) =>
        quantity switch
        {
            VesselQuantity.CellsPerMillilitre => now.Stocks[Stock.Algae][member]
                / VesselEnsemble.Cells(now.Parameters, member),
            VesselQuantity.Tan => now.Stocks[Stock.Tan][member],
            VesselQuantity.Nitrite => now.Stocks[Stock.Nitrite][member],
            VesselQuantity.Nitrate => now.Stocks[Stock.Nitrate][member],
            VesselQuantity.Oxygen => now.Stocks[Stock.Oxygen][member],
            _ => _carbonate.PhOf(now.Stocks[Stock.Hydrogen][member]),
        };

    private enum Scale
    {
        Amount,
        Share,
        Oxygen,
        Acid,
        Logarithm,
        Plain,
    }
}
