using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Constants of carbonic and boric acid and of water itself in sea water, total hydrogen scale, mol per kg of sea water.
/// Sources: K1 and K2, Waters, Millero and Woosley 2014, Mar. Chem. 165:66 (S 0 to 45, 0 to 45 degC); K0, Weiss 1974,
/// Mar. Chem. 2:203; boric acid, Dickson 1990, Deep-Sea Res. 37:755; water, Millero 1995; sulphate, Dickson 1990, J. Chem.
/// Thermodyn. 22:113; total boron, Uppstrom 1974. Coefficients were read in public copies of the formulas.
/// </summary>
public readonly record struct CarbonateConstants
{
    /// <summary>Solubility of carbon dioxide, mol/kg a standard atmosphere.</summary>
    public required double SolubilityPerAtmosphere { get; init; }

    /// <summary>First constant of carbonic acid, mol/kg.</summary>
    public required double First { get; init; }

    /// <summary>Second constant of carbonic acid, mol/kg.</summary>
    public required double Second { get; init; }

    /// <summary>Constant of boric acid, mol/kg.</summary>
    public required double Boric { get; init; }

    /// <summary>Ion product of water, (mol/kg)2.</summary>
    public required double Water { get; init; }

    /// <summary>Boron of both forms, mol/kg.</summary>
    public required double TotalBoron { get; init; }

    /// <summary>
    /// Hydrogen ions of the total scale for one that is free, 1 or more. Electrodes set in NBS/NIST buffers read within
    /// about 0.03 of the free scale in sea water (Takahashi et al. 1982).
    /// </summary>
    public required double TotalPerFree { get; init; }

    /// <summary>The constants of a water.</summary>
    /// <param name="salinity">Practical salinity, published 0 to 45; held within 0 to 50.</param>
    /// <param name="temperature">Published 0 to 45 degC; held within -2 to 50.</param>
    public static Computed<CarbonateConstants> At(Salinity salinity, Temperature temperature)
    {
        var s = Math.Clamp(salinity.Practical, 0, 50);
        var kelvin = Math.Clamp(temperature.Kelvin, 271.15, 323.15);
        var rootS = Math.Sqrt(s);
        var logT = Math.Log(kelvin);
        var hundreds = kelvin / 100;
        var first =
            -126.34048
            + (6320.813 / kelvin)
            + (19.568224 * logT)
            + (13.568513 * rootS)
            + (0.031645 * s)
            - (5.3834e-5 * s * s)
            + (((-539.2304 * rootS) - (5.635 * s)) / kelvin)
            - (2.0901396 * rootS * logT);
        var second =
            -90.18333
            + (5143.692 / kelvin)
            + (14.613358 * logT)
            + (21.389248 * rootS)
            + (0.12452358 * s)
            - (3.7447e-4 * s * s)
            + (((-787.3736 * rootS) - (19.84233 * s)) / kelvin)
            - (3.3773006 * rootS * logT);
        var solubility =
            -60.2409
            + (93.4517 / hundreds)
            + (23.3585 * Math.Log(hundreds))
            + (s * (0.023517 - (0.023656 * hundreds) + (0.0047036 * hundreds * hundreds)));
        var boric =
            ((-8966.90 - (2890.53 * rootS) - (77.942 * s) + (1.728 * s * rootS) - (0.0996 * s * s)) / kelvin)
            + 148.0248
            + (137.1942 * rootS)
            + (1.62142 * s)
            + ((-24.4344 - (25.085 * rootS) - (0.2474 * s)) * logT)
            + (0.053105 * rootS * kelvin);
        var water =
            (-13847.26 / kelvin)
            + 148.9652
            - (23.6521 * logT)
            + (((118.67 / kelvin) - 5.977 + (1.0495 * logT)) * rootS)
            - (0.01615 * s);
        return new(
            new()
            {
                SolubilityPerAtmosphere = Math.Exp(solubility),
                First = Math.Pow(10, -first),
                Second = Math.Pow(10, -second),
                Boric = Math.Exp(boric),
                Water = Math.Exp(water),
                TotalBoron = 0.000416 * s / 35,
                TotalPerFree = 1 + (0.02824 * s / 35 / Sulphate(s, kelvin, logT)),
            },
            PublishedRange.Holds(salinity.Practical, 0, 45)
                && PublishedRange.Holds(temperature.Celsius, 0, 45)
        );
    }

    private static double Sulphate(double s, double kelvin, double logT)
    {
        var ionic = 19.924 * s / (1000 - (1.005 * s));
        var root = Math.Sqrt(ionic);
        var value =
            (-4276.1 / kelvin)
            + 141.328
            - (23.093 * logT)
            + (((-13856 / kelvin) + 324.57 - (47.986 * logT)) * root)
            + (((35474 / kelvin) - 771.54 + (114.723 * logT)) * ionic)
            - (2698 / kelvin * ionic * root)
            + (1776 / kelvin * ionic * ionic)
            + Math.Log(1 - (0.001005 * s));
        return Math.Exp(value);
    }
}
