using System.Collections.Immutable;
using System.Numerics;
using System.Runtime.InteropServices;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// What every member came to, hour by hour: place 0 is the start of the piece that was run, place i the end of its hour i.
/// </summary>
public sealed class VesselTraces
{
    // By quantity (without un-ionised ammonia, which follows), then hour, then member.
    private readonly double[][] _values;
    private readonly double[] _unionisedAtPh0;

    internal VesselTraces(int fromHour, int hours, int members)
    {
        FromHour = fromHour;
        Hours = hours;
        Members = members;
        _values = new double[(int)VesselQuantity.UnionisedAmmonia][];
        for (var i = 0; i < _values.Length; i++)
        {
            _values[i] = new double[(hours + 1) * members];
        }

        _unionisedAtPh0 = new double[hours + 1];
    }

    /// <summary>Hour of the vessel's clock at which the piece starts.</summary>
    public int FromHour { get; }

    /// <summary>Hours that were run; there is one place more.</summary>
    public int Hours { get; }

    /// <summary>How many members.</summary>
    public int Members { get; }

    /// <summary>What one member came to.</summary>
    /// <param name="quantity">Of what.</param>
    /// <param name="place">0 to <see cref="Hours"/>.</param>
    /// <param name="member">0 to one below <see cref="Members"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such place or member.</exception>
    public double Value(VesselQuantity quantity, int place, int member)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(place);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(place, Hours);
        ArgumentOutOfRangeException.ThrowIfNegative(member);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(member, Members);
        return At(quantity, place, member);
    }

    /// <summary>What all members came to.</summary>
    /// <param name="quantity">Of what.</param>
    /// <param name="place">0 to <see cref="Hours"/>.</param>
    /// <param name="values">Receives one for each member.</param>
    /// <exception cref="ArgumentException">Not as long as there are members.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such place.</exception>
    public void Read(VesselQuantity quantity, int place, Span<double> values)
    {
        if (values.Length != Members)
        {
            throw new ArgumentException("One number for each member is needed.", nameof(values));
        }

        ArgumentOutOfRangeException.ThrowIfNegative(place);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(place, Hours);
        for (var member = 0; member < Members; member++)
        {
            values[member] = At(quantity, place, member);
        }
    }

    /// <summary>The 5, 50 and 95 % points over the members.</summary>
    /// <param name="quantity">Of what.</param>
    /// <param name="place">0 to <see cref="Hours"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such place.</exception>
    public Interval Quantiles(VesselQuantity quantity, int place)
    {
        var values = new double[Members];
        Read(quantity, place, values);
        return MemberQuantiles.Of(values);
    }

    /// <summary>Lowest or highest that each member came to within some places.</summary>
    /// <param name="quantity">Of what.</param>
    /// <param name="first">First place.</param>
    /// <param name="last">Last place, not before the first.</param>
    /// <param name="highest">Whether the highest is asked; the lowest otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such places.</exception>
    public ImmutableArray<double> Extremes(VesselQuantity quantity, int first, int last, bool highest)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(first);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(last, Hours);
        ArgumentOutOfRangeException.ThrowIfLessThan(last, first);
        var extremes = new double[Members];
        for (var member = 0; member < Members; member++)
        {
            extremes[member] = At(quantity, first, member);
        }

        for (var place = first + 1; place <= last; place++)
        {
            for (var member = 0; member < Members; member++)
            {
                var value = At(quantity, place, member);
                extremes[member] = highest
                    ? Math.Max(extremes[member], value)
                    : Math.Min(extremes[member], value);
            }
        }

        return ImmutableCollectionsMarshal.AsImmutableArray(extremes);
    }

    /// <summary>Share of the members that come above a limit, or below it, at some of the places.</summary>
    /// <param name="quantity">Of what.</param>
    /// <param name="limit">The limit, in the unit of the quantity.</param>
    /// <param name="above">Whether above the limit is asked; below otherwise.</param>
    /// <param name="first">First place.</param>
    /// <param name="last">Last place.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such places, or a limit that is not finite.</exception>
    public Probability Crossing(VesselQuantity quantity, double limit, bool above, int first, int last)
    {
        Finite.Required(limit);
        var extremes = Extremes(quantity, first, last, above);
        var count = extremes.Count(value => above ? value > limit : value < limit);
        return Probability.FromFraction((double)count / Members);
    }

    internal void Keep(int place, VesselPart members, in CarbonateTerms carbonate, double walls, double pKa)
    {
        var (stocks, parameters) = (members.Stocks, members.Parameters);
        _unionisedAtPh0[place] = Math.Pow(10, -pKa);
        var scale = 1 / (carbonate.PerLitre * carbonate.TotalPerFree);
        var from = (place * Members) + members.First;
        var film = parameters[(int)VesselParameter.ThickFilmMilligramsPerSquareCentimetre];
        var cells = parameters[(int)VesselParameter.CellNitrogenPicograms];
        Share(VesselQuantity.CellsPerMillilitre, Stock.Algae, 1e6, cells);
        if (walls > 0)
        {
            Share(VesselQuantity.FilmShare, Stock.Film, 1 / walls, film);
        }

        // The hydrogen ions are kept and the pH told when asked.
        Share(VesselQuantity.PHNbs, Stock.Hydrogen, scale, null);
        Copy(VesselQuantity.Suspended, Stock.Suspended);
        Copy(VesselQuantity.Settled, Stock.Settled);
        Copy(VesselQuantity.Tan, Stock.Tan);
        Copy(VesselQuantity.Nitrite, Stock.Nitrite);
        Copy(VesselQuantity.Nitrate, Stock.Nitrate);
        Copy(VesselQuantity.Oxygen, Stock.Oxygen);

        Span<double> Of(VesselQuantity quantity) => _values[(int)quantity].AsSpan(from, members.Count);
        void Copy(VesselQuantity quantity, int stock) =>
            stocks[stock].AsSpan(0, members.Count).CopyTo(Of(quantity));
        void Share(VesselQuantity quantity, int stock, double factor, double[]? of)
        {
            var told = Of(quantity);
            var held = stocks[stock];
            var member = 0;
            for (; member <= told.Length - Vector<double>.Count; member += Vector<double>.Count)
            {
                var value = new Vector<double>(held, member) * factor;
                (of is null ? value : value / new Vector<double>(of, member)).CopyTo(told[member..]);
            }

            for (; member < told.Length; member++)
            {
                var value = held[member] * factor;
                told[member] = of is null ? value : value / of[member];
            }
        }
    }

    private double At(VesselQuantity quantity, int place, int member)
    {
        var index = (place * Members) + member;
        switch (quantity)
        {
            case VesselQuantity.PHNbs:
                return -Math.Log10(_values[(int)VesselQuantity.PHNbs][index]);
            case VesselQuantity.UnionisedAmmonia:
                var acid = _unionisedAtPh0[place];
                return _values[(int)VesselQuantity.Tan][index]
                    * (acid / (acid + _values[(int)VesselQuantity.PHNbs][index]));
            default:
                return _values[(int)quantity][index];
        }
    }
}
