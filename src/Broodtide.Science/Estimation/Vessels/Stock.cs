namespace Broodtide.Science.Estimation.Vessels;

/// <summary>Places of what a member holds. Nitrogen as mg/L, oxygen and its demand mg/L, the carbonate balance mmol/L.</summary>
internal static class Stock
{
    internal const int Algae = 0;
    internal const int Film = 1;
    internal const int Suspended = 2;
    internal const int Settled = 3;
    internal const int Tan = 4;
    internal const int Nitrite = 5;
    internal const int Nitrate = 6;

    /// <summary>Oxygen that the suspended and the settled will take.</summary>
    internal const int SuspendedDemand = 7;
    internal const int SettledDemand = 8;

    /// <summary>Carbon and alkalinity move with the water like the stocks before them.</summary>
    internal const int Carbon = 9;
    internal const int Alkalinity = 10;

    /// <summary>How many there are that evaporation makes denser.</summary>
    internal const int Dissolved = 11;

    internal const int Oxygen = 11;

    /// <summary>Hydrogen ions, mmol/L on the total scale.</summary>
    internal const int Hydrogen = 12;

    /// <summary>Grown share of the oxidisers of ammonia and of nitrite.</summary>
    internal const int AmmoniaOxidisers = 13;
    internal const int NitriteOxidisers = 14;

    /// <summary>Nitrogen brought in and taken out since the start, mg in the vessel.</summary>
    internal const int BroughtIn = 15;
    internal const int TakenOut = 16;

    /// <summary>Alkalinity of the keeper's salt at salinity 35, meq/L; stays.</summary>
    internal const int SaltAlkalinity = 17;

    /// <summary>Nitrogen that readings have put in, below zero taken out, mg in the vessel.</summary>
    internal const int Corrected = 18;

    internal const int Count = 19;

    /// <summary>Stocks of nitrogen are the first.</summary>
    internal const int Nitrogen = 7;
}
