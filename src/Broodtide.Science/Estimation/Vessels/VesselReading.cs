using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>Colour of the water against white, as a keeper says it.</summary>
public enum WaterColour
{
    /// <summary>No tint is seen.</summary>
    Clear,

    /// <summary>A tint is seen.</summary>
    Tinted,

    /// <summary>Plainly green.</summary>
    Green,

    /// <summary>So green that the far wall is hardly seen.</summary>
    Deep,
}

/// <summary>Film on the walls, as a keeper says it.</summary>
public enum FilmCover
{
    /// <summary>None is seen.</summary>
    None,

    /// <summary>Thin, or in patches.</summary>
    Thin,

    /// <summary>Thick all over.</summary>
    Thick,
}

/// <summary>Something read or seen at an hour of the vessel's clock, before what is done to it in that hour.</summary>
/// <param name="Hour">The hour; the members must stand there.</param>
public abstract record VesselReading(int Hour)
{
    /// <summary>A number that was measured, with the error of its method.</summary>
    public sealed record Measured : VesselReading
    {
        /// <summary>A number.</summary>
        /// <param name="hour">Hour of the clock.</param>
        /// <param name="quantity">Cells, ammonia, nitrite, nitrate, oxygen or pH.</param>
        /// <param name="value">What was read, in the unit of the quantity; 0 or more.</param>
        /// <param name="sd">Standard deviation that does not grow with the value, in the same unit, above zero.</param>
        /// <param name="share">Standard deviation as a share of the value, 0 to 2.</param>
        /// <exception cref="ArgumentOutOfRangeException">
        /// Not finite, negative, a pH above 14, or a quantity that nobody measures.
        /// </exception>
        public Measured(int hour, VesselQuantity quantity, double value, double sd, double share = 0)
            : base(hour)
        {
            Quantity = quantity switch
            {
                VesselQuantity.CellsPerMillilitre
                or VesselQuantity.Tan
                or VesselQuantity.Nitrite
                or VesselQuantity.Nitrate
                or VesselQuantity.Oxygen
                or VesselQuantity.PHNbs => quantity,
                _ => throw new ArgumentOutOfRangeException(
                    nameof(quantity),
                    quantity,
                    "Nobody measures this."
                ),
            };
            Value = Finite.Within(value, 0, quantity == VesselQuantity.PHNbs ? 14 : 1e12);
            Sd = Finite.Positive(sd);
            Share = Finite.Within(share, 0, 2);
        }

        /// <summary>Of what.</summary>
        public VesselQuantity Quantity { get; }

        /// <summary>What was read.</summary>
        public double Value { get; }

        /// <summary>Error that does not grow with the value.</summary>
        public double Sd { get; }

        /// <summary>Error as a share of the value.</summary>
        public double Share { get; }

        /// <summary>
        /// With the errors of a keeper's means (common practice, no source): drop tests of ammonia 0.05 mg/L and a quarter,
        /// of nitrite 0.02 and a quarter, of nitrate 2 and 0.3; a probe of oxygen 0.3 mg/L, of pH 0.1; cells in a chamber
        /// a fifth.
        /// </summary>
        /// <param name="hour">Hour of the clock.</param>
        /// <param name="quantity">Cells, ammonia, nitrite, nitrate, oxygen or pH.</param>
        /// <param name="value">What was read.</param>
        /// <exception cref="ArgumentOutOfRangeException">As the constructor.</exception>
        public static Measured AtHome(int hour, VesselQuantity quantity, double value) =>
            quantity switch
            {
                VesselQuantity.Tan => new(hour, quantity, value, 0.05, 0.25),
                VesselQuantity.Nitrite => new(hour, quantity, value, 0.02, 0.25),
                VesselQuantity.Nitrate => new(hour, quantity, value, 2, 0.3),
                VesselQuantity.Oxygen => new(hour, quantity, value, 0.3),
                VesselQuantity.PHNbs => new(hour, quantity, value, 0.1),
                _ => new(hour, quantity, value, 300, 0.2),
            };
    }

    /// <summary>The colour of the water.</summary>
    /// <param name="Hour">Hour of the clock.</param>
    /// <param name="Colour">What was seen.</param>
    public sealed record ColourSeen(int Hour, WaterColour Colour) : VesselReading(Hour);

    /// <summary>The film on the walls.</summary>
    /// <param name="Hour">Hour of the clock.</param>
    /// <param name="Cover">What was seen.</param>
    public sealed record FilmSeen(int Hour, FilmCover Cover) : VesselReading(Hour);
}

/// <summary>What a reading did to the members.</summary>
/// <param name="Members">The members afterwards.</param>
/// <param name="Tail">
/// Chance, before it was read, of something as odd as this or odder. Small: either the reading or what was supposed of the
/// vessel is wrong.
/// </param>
/// <param name="Weight">How far the reading was believed, 1 fully; less where it was odd.</param>
public sealed record VesselUpdate(VesselEnsemble Members, Probability Tail, Probability Weight)
{
    /// <summary>Whether the members could explain the reading: its <see cref="Tail"/> is 0.003 or more, as three standard deviations are.</summary>
    public bool IsExplained => Tail.Value >= 0.003;
}
