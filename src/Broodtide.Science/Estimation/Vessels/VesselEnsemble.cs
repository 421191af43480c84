using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// Many suppositions of one vessel, each with parameters of its own, at an hour of its clock. It never changes:
/// <see cref="VesselTwin"/> makes the one that follows. Members keep their number, so that two scenes run from one ensemble
/// are compared member by member. The same seed gives the same ensemble on every machine.
/// </summary>
public sealed class VesselEnsemble
{
    internal static readonly int ParameterCount = Enum.GetValues<VesselParameter>().Length;

    // Arrays are filled up to whole vectors of any machine with copies of the last member.
    internal const int Block = 8;
    private const int StartDimensions = 10;

    internal VesselEnsemble(
        VesselPriors priors,
        int members,
        int hour,
        double litres,
        double[][] stocks,
        double[][] parameters,
        ulong seed
    )
    {
        Seed = seed;
        Priors = priors;
        Members = members;
        Hour = hour;
        Litres = litres;
        Stocks = stocks;
        Parameters = parameters;
    }

    /// <summary>What was believed of the parameters at the start.</summary>
    public VesselPriors Priors { get; }

    /// <summary>How many suppositions.</summary>
    public int Members { get; }

    /// <summary>Hours since the clock started.</summary>
    public int Hour { get; }

    /// <summary>Water in the vessel, litres.</summary>
    public double Litres { get; }

    /// <summary>What the draw and the days are turned by.</summary>
    internal ulong Seed { get; }

    internal double[][] Stocks { get; }

    internal double[][] Parameters { get; }

    /// <summary>Draws the ensemble that a scene starts with.</summary>
    /// <param name="scene">Vessel, water at the start, first hour.</param>
    /// <param name="start">What is believed to be in the water.</param>
    /// <param name="priors">What is believed of the parameters.</param>
    /// <param name="members">How many, 2 to 10,000; 200 are usual.</param>
    /// <param name="seed">Turns the draw; the same seed draws the same.</param>
    /// <exception cref="ArgumentOutOfRangeException">Number outside these limits, or the scene holds no water.</exception>
    /// <exception cref="ArgumentException">The scene has no hour.</exception>
    public static VesselEnsemble Draw(
        VesselScene scene,
        VesselStart start,
        VesselPriors priors,
        int members = 200,
        ulong seed = 1
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(members, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(members, 10_000);
        Finite.Positive(scene.WaterAtStart.Litres, nameof(scene));
        if (scene.Hours.IsDefaultOrEmpty)
        {
            throw new ArgumentException("A scene needs an hour or more.", nameof(scene));
        }

        var size = (members + Block - 1) / Block * Block;
        var stocks = Arrays(Stock.Count, size);
        var parameters = Arrays(ParameterCount, size);
        var points = new EvenDraws(ParameterCount + StartDimensions, members, seed);
        var first = scene.Hours[0];
        var carbonate = new CarbonateTerms(first.Salinity, first.Temperature);
        var saturation = OxygenSaturation.At(first.Salinity, first.Temperature).Value.MilligramsPerLitre;
        var z = new double[ParameterCount + StartDimensions];
        for (var member = 0; member < size; member++)
        {
            points.Normal(Math.Min(member, members - 1), z);
            for (var i = 0; i < ParameterCount; i++)
            {
                parameters[i][member] = priors.Rows[i].At(z[i]);
            }

            var at = ParameterCount;
            var cellsToNitrogen = Cells(parameters, member);
            stocks[Stock.Algae][member] = start.CellsPerMillilitre.At(z[at]) * cellsToNitrogen;
            stocks[Stock.Film][member] =
                Math.Min(1, start.FilmShare.At(z[at + 1]))
                * parameters[(int)VesselParameter.ThickFilmMilligramsPerSquareCentimetre][member]
                * scene.Site.WallSquareCentimetresPerLitre;
            stocks[Stock.Suspended][member] = start.Suspended.At(z[at + 2]);
            stocks[Stock.Settled][member] = start.Settled.At(z[at + 3]);
            stocks[Stock.SuspendedDemand][member] =
                stocks[Stock.Suspended][member] * VesselChemistry.OxygenPerAlgalNitrogen;
            stocks[Stock.SettledDemand][member] =
                stocks[Stock.Settled][member] * VesselChemistry.OxygenPerAlgalNitrogen;
            stocks[Stock.Tan][member] = start.Tan.At(z[at + 4]);
            stocks[Stock.Nitrite][member] = start.Nitrite.At(z[at + 5]);
            stocks[Stock.Nitrate][member] = start.Nitrate.At(z[at + 6]);
            stocks[Stock.Oxygen][member] =
                Math.Min(VesselStep.MostOfSaturation, start.OxygenShare.At(z[at + 7])) * saturation;
            var salt = start.AlkalinityAt35.At(z[at + 8]);
            var alkalinity = salt * first.Salinity.Practical / 35;
            var dioxide =
                start.CarbonDioxideShare.At(z[at + 9])
                * parameters[(int)VesselParameter.RoomCarbonDioxide][member]
                * carbonate.PerMicroatmosphere;
            var hydrogen = carbonate.HydrogenAtCarbonDioxide(alkalinity, dioxide);
            stocks[Stock.SaltAlkalinity][member] = salt;
            stocks[Stock.Alkalinity][member] = alkalinity;
            stocks[Stock.Carbon][member] = carbonate.CarbonAt(alkalinity, hydrogen);
            stocks[Stock.Hydrogen][member] = hydrogen;
            var ripe = VesselStep.RipeningPerDay;
            var days = parameters[(int)VesselParameter.AmmoniaOxidiserDays][member];
            var later = days + parameters[(int)VesselParameter.NitriteOxidiserDelayDays][member];
            stocks[Stock.AmmoniaOxidisers][member] = 1 / (1 + Math.Exp(-ripe * (scene.Site.RipeDays - days)));
            stocks[Stock.NitriteOxidisers][member] =
                1 / (1 + Math.Exp(-ripe * (scene.Site.RipeDays - later)));
        }

        return new(priors, members, 0, scene.WaterAtStart.Litres, stocks, parameters, seed);
    }

    /// <summary>Copies what each member supposes of a parameter.</summary>
    /// <param name="parameter">Which.</param>
    /// <param name="values">Receives one for each member.</param>
    /// <exception cref="ArgumentException">Not as long as there are members.</exception>
    public void Read(VesselParameter parameter, Span<double> values)
    {
        if (values.Length != Members)
        {
            throw new ArgumentException("One place for each member is needed.", nameof(values));
        }

        Parameters[(int)parameter].AsSpan(0, Members).CopyTo(values);
    }

    /// <summary>All nitrogen in the vessel, mg, of a member, 0 to one below <see cref="Members"/>.</summary>
    public double NitrogenMilligrams(int member) =>
        Enumerable.Range(0, Stock.Nitrogen).Sum(stock => Stocks[stock][Checked(member)]) * Litres;

    /// <summary>Nitrogen brought into the vessel since the start, by food, water and what larvae gave off, mg.</summary>
    public double BroughtInMilligrams(int member) => Stocks[Stock.BroughtIn][Checked(member)];

    /// <summary>Nitrogen taken out since the start, by water, siphon, wiping and what larvae kept, mg.</summary>
    public double TakenOutMilligrams(int member) => Stocks[Stock.TakenOut][Checked(member)];

    /// <summary>Nitrogen by which readings have corrected a member since the start, mg; below zero where there was less than supposed.</summary>
    public double CorrectedMilligrams(int member) => Stocks[Stock.Corrected][Checked(member)];

    /// <summary>mg/L of nitrogen for a cell a millilitre.</summary>
    internal static double Cells(double[][] parameters, int member) =>
        parameters[(int)VesselParameter.CellNitrogenPicograms][member] * 1e-6;

    internal static double[][] Copied(double[][] arrays) => [.. arrays.Select(array => array.ToArray())];

    private int Checked(int member)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(member);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(member, Members);
        return member;
    }

    private static double[][] Arrays(int count, int size) =>
        [.. Enumerable.Range(0, count).Select(_ => new double[size])];
}
