using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What is done to a vessel, done to each of its members.</summary>
internal static class VesselEvents
{
    /// <summary>Changes the members and tells the litres that are in the vessel afterwards.</summary>
    internal static double Do(
        VesselEvent done,
        double[][] stocks,
        double[][] parameters,
        double litres,
        VesselHour hour
    )
    {
        switch (done)
        {
            case VesselEvent.WaterMoved moved:
                return Move(moved, stocks, parameters, litres, hour);
            case VesselEvent.Fed fed:
                var dry = fed.DryMass.Milligrams / litres;
                var nitrogen = dry * fed.Composition.NitrogenShare;
                Add(stocks[Stock.Suspended], nitrogen);
                Add(stocks[Stock.SuspendedDemand], dry * fed.Composition.OxygenGramsPerGram);
                Add(stocks[Stock.BroughtIn], nitrogen * litres);
                return litres;
            case VesselEvent.AlgaeGiven given:
                var perMillilitre = Finite.NotNegative(given.Cells, nameof(given.Cells)) / (1000 * litres);
                for (var i = 0; i < stocks[0].Length; i++)
                {
                    var added = perMillilitre * VesselEnsemble.Cells(parameters, i);
                    stocks[Stock.Algae][i] += added;
                    stocks[Stock.BroughtIn][i] += added * litres;
                }

                return litres;
            case VesselEvent.Siphoned siphoned:
                Scale(stocks[Stock.SettledDemand], siphoned.Share.Opposite);
                return Remove(stocks, Stock.Settled, siphoned.Share, litres);
            case VesselEvent.FilmWiped wiped:
                return Remove(stocks, Stock.Film, wiped.Share, litres);
            case VesselEvent.AlgaeDied died:
                for (var i = 0; i < stocks[0].Length; i++)
                {
                    var dead = stocks[Stock.Algae][i] * died.Share.Value;
                    stocks[Stock.Algae][i] -= dead;
                    stocks[Stock.Suspended][i] += dead;
                    stocks[Stock.SuspendedDemand][i] += dead * VesselChemistry.OxygenPerAlgalNitrogen;
                }

                return litres;
            case VesselEvent.FilterDisturbed disturbed:
                // A trace always stays from which they grow again.
                var kept = Math.Max(1e-4, disturbed.Kept.Value);
                Scale(stocks[Stock.AmmoniaOxidisers], kept);
                Scale(stocks[Stock.NitriteOxidisers], kept);
                return litres;
            default:
                throw new ArgumentException($"{done.GetType().Name} is not known.", nameof(done));
        }
    }

    private static double Move(
        VesselEvent.WaterMoved moved,
        double[][] stocks,
        double[][] parameters,
        double litres,
        VesselHour hour
    )
    {
        var left = litres - moved.Taken.Litres;
        if (left < 0 || left + moved.Added.Litres <= 0)
        {
            throw new ArgumentException("More water is taken than is there, or none is left.", nameof(moved));
        }

        var after = left + moved.Added.Litres;
        var stay = left / after;
        var come = moved.Added.Litres / after;
        var into = moved.Incoming;
        var carbonate = new CarbonateTerms(hour.Salinity, hour.Temperature);
        var saturated = OxygenSaturation.At(hour.Salinity, hour.Temperature).Value.MilligramsPerLitre;
        var oxygen = Math.Min(
            into.Oxygen?.MilligramsPerLitre ?? saturated,
            VesselStep.MostOfSaturation * saturated
        );
        Span<double> incoming = stackalloc double[Stock.Dissolved];
        incoming.Clear();
        incoming[Stock.Tan] = into.Tan.MilligramsPerLitre;
        incoming[Stock.Nitrite] = into.Nitrite.MilligramsPerLitre;
        incoming[Stock.Nitrate] = into.Nitrate.MilligramsPerLitre;
        for (var i = 0; i < stocks[0].Length; i++)
        {
            incoming[Stock.Algae] = into.CellsPerMillilitre * VesselEnsemble.Cells(parameters, i);
            var alkalinity =
                into.AlkalinityMilliequivalentsPerLitre
                ?? (stocks[Stock.SaltAlkalinity][i] * hour.Salinity.Practical / 35);
            incoming[Stock.Alkalinity] = alkalinity;
            var acid = into.PHNbs is { } told
                ? carbonate.HydrogenAt(told)
                : carbonate.HydrogenAtCarbonDioxide(
                    alkalinity,
                    parameters[(int)VesselParameter.RoomCarbonDioxide][i] * carbonate.PerMicroatmosphere
                );
            incoming[Stock.Carbon] = carbonate.CarbonAt(alkalinity, acid);
            for (var stock = 0; stock < Stock.Dissolved; stock++)
            {
                // Film and what has settled stay in the vessel.
                var drawn = stock is not (Stock.Film or Stock.Settled or Stock.SettledDemand);
                var held = stocks[stock][i];
                stocks[stock][i] = drawn ? (held * stay) + (incoming[stock] * come) : held * litres / after;
                if (drawn && stock < Stock.Nitrogen)
                {
                    stocks[Stock.TakenOut][i] += held * moved.Taken.Litres;
                    stocks[Stock.BroughtIn][i] += incoming[stock] * moved.Added.Litres;
                }
            }

            stocks[Stock.Oxygen][i] = (stocks[Stock.Oxygen][i] * stay) + (oxygen * come);
            stocks[Stock.Hydrogen][i] = carbonate.Hydrogen(
                stocks[Stock.Carbon][i],
                stocks[Stock.Alkalinity][i]
            );
        }

        return after;
    }

    private static double Remove(double[][] stocks, int stock, Probability share, double litres)
    {
        for (var i = 0; i < stocks[stock].Length; i++)
        {
            var gone = stocks[stock][i] * share.Value;
            stocks[stock][i] -= gone;
            stocks[Stock.TakenOut][i] += gone * litres;
        }

        return litres;
    }

    private static void Add(double[] stock, double amount)
    {
        foreach (ref var held in stock.AsSpan())
        {
            held += amount;
        }
    }

    private static void Scale(double[] stock, double factor)
    {
        foreach (ref var held in stock.AsSpan())
        {
            held *= factor;
        }
    }
}
