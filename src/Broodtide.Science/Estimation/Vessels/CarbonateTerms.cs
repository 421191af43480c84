using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>The carbonate balance of one water in mmol/L: constants, and what pH a carbon and an alkalinity give.</summary>
internal readonly struct CarbonateTerms
{
    // pH is held within these: 5 to 11 on the total scale. Outside them nothing of the twin holds.
    private const double LowestPh = 5;
    private const double HighestPh = 11;

    internal CarbonateTerms(Salinity salinity, Temperature temperature)
    {
        var constants = CarbonateConstants.At(salinity, temperature).Value;
        var kilogramsPerLitre =
            SeawaterDensity.Eos80(salinity, temperature).Value.KilogramsPerCubicMetre / 1000;
        PerLitre = kilogramsPerLitre * 1000;
        First = constants.First * PerLitre;
        Second = constants.Second * PerLitre;
        Boric = constants.Boric * PerLitre;
        Boron = constants.TotalBoron * PerLitre;
        Water = constants.Water * PerLitre * PerLitre;
        PerMicroatmosphere = constants.SolubilityPerAtmosphere * PerLitre * 1e-6;
        TotalPerFree = constants.TotalPerFree;
        Least = Math.Pow(10, -HighestPh) * PerLitre;
        Most = Math.Pow(10, -LowestPh) * PerLitre;
    }

    /// <summary>mmol/L for a mol/kg.</summary>
    internal double PerLitre { get; }

    internal double First { get; }

    internal double Second { get; }

    internal double Boric { get; }

    internal double Boron { get; }

    internal double Water { get; }

    /// <summary>Carbon dioxide, mmol/L, at a microatmosphere.</summary>
    internal double PerMicroatmosphere { get; }

    internal double TotalPerFree { get; }

    /// <summary>Fewest and most hydrogen ions, mmol/L of the total scale.</summary>
    internal double Least { get; }

    internal double Most { get; }

    /// <summary>Hydrogen ions, mmol/L on the total scale, at a pH by NBS buffers.</summary>
    internal double HydrogenAt(double phNbs) =>
        Math.Clamp(Math.Pow(10, -phNbs) * TotalPerFree * PerLitre, Least, Most);

    /// <summary>pH by NBS buffers.</summary>
    internal double PhOf(double hydrogen) => -Math.Log10(hydrogen / (PerLitre * TotalPerFree));

    /// <summary>Alkalinity that is not carbonate.</summary>
    private double OtherAlkalinity(double hydrogen) =>
        (Boron * Boric / (Boric + hydrogen)) + (Water / hydrogen) - hydrogen;

    /// <summary>Carbon of all forms that has an alkalinity at a pH; 0 where that is above what carbonate can.</summary>
    internal double CarbonAt(double alkalinity, double hydrogen)
    {
        var carbonate = Math.Max(0, alkalinity - OtherAlkalinity(hydrogen));
        var all = (hydrogen * hydrogen) + (First * hydrogen) + (First * Second);
        return carbonate * all / (First * (hydrogen + (2 * Second)));
    }

    /// <summary>Hydrogen ions at an alkalinity with dissolved carbon dioxide, mmol/L.</summary>
    internal double HydrogenAtCarbonDioxide(double alkalinity, double dioxide)
    {
        var (low, high) = (Math.Log(Least), Math.Log(Most));
        for (var i = 0; i < 60; i++)
        {
            var middle = 0.5 * (low + high);
            var hydrogen = Math.Exp(middle);
            var told =
                (dioxide * First / hydrogen * (1 + (2 * Second / hydrogen))) + OtherAlkalinity(hydrogen);
            (low, high) = told > alkalinity ? (middle, high) : (low, middle);
        }

        return Math.Exp(0.5 * (low + high));
    }

    /// <summary>Hydrogen ions of a carbon and an alkalinity, by halving.</summary>
    internal double Hydrogen(double carbon, double alkalinity)
    {
        var (low, high) = (Math.Log(Least), Math.Log(Most));
        for (var i = 0; i < 60; i++)
        {
            var middle = 0.5 * (low + high);
            (low, high) =
                AlkalinityOf(carbon, Math.Exp(middle)) > alkalinity ? (middle, high) : (low, middle);
        }

        return Math.Exp(0.5 * (low + high));
    }

    private double AlkalinityOf(double carbon, double hydrogen)
    {
        var all = (hydrogen * hydrogen) + (First * hydrogen) + (First * Second);
        return (carbon * First * (hydrogen + (2 * Second)) / all) + OtherAlkalinity(hydrogen);
    }
}
