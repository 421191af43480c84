namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// No two days are alike, and no model of a jar is true: at the beginning of each day every member's rates move a little,
/// back towards what is usual and by chance away from it, so that what was learned long ago holds less than what was
/// learned yesterday. Without readings the spread of each rate stays what was believed at the start (a first-order
/// autoregression on the logarithm). Two members at a time move against each other, so that the middle of all stays. The
/// moves depend on the seed, the day, the rate and the member alone: two scenes run from one ensemble have the same days.
/// </summary>
internal static class DayDrift
{
    /// <summary>Hours between moves.</summary>
    internal const int Hours = 24;

    // How far the log odds of the grown share of nitrifiers move in a day: they starve, are eaten, and are not the same in
    // all corners (this project's estimate, held against months of another model; docs/science/vessel-twin.md).
    private const double NitrifierLogOdds = 0.4;

    private static readonly int[] Shares = [Stock.AmmoniaOxidisers, Stock.NitriteOxidisers];

    /// <summary>Moves rates and grown shares of members into a day.</summary>
    internal static void Take(VesselPart members, VesselPriors priors, ulong seed, int day)
    {
        var (stocks, parameters) = (members.Stocks, members.Parameters);
        var moves = new double[members.Count];
        for (var i = 0; i < parameters.Length; i++)
        {
            var prior = priors.Rows[i];
            if (prior.MemoryDays is not { } memory || prior.LogSd == 0)
            {
                continue;
            }

            var stays = Math.Exp(-1 / memory);
            var fresh = prior.LogSd * Math.Sqrt(1 - (stays * stays));
            Normal(seed, day, i, members.First, moves);
            var values = parameters[i];
            for (var member = 0; member < members.Count; member++)
            {
                // One that is nothing stays nothing: what is switched off is not switched on by a day.
                if (values[member] > 0)
                {
                    values[member] = Math.Clamp(
                        prior.Median
                            * Math.Exp(
                                (stays * Math.Log(values[member] / prior.Median)) + (fresh * moves[member])
                            ),
                        prior.Lowest,
                        prior.Highest
                    );
                }
            }

            values.AsSpan(members.Count).Fill(values[members.Count - 1]);
        }

        foreach (var share in Shares)
        {
            Normal(seed, day, -share, members.First, moves);
            var values = stocks[share];
            for (var member = 0; member < members.Count; member++)
            {
                var grown = values[member];
                var odds = grown * Math.Exp(NitrifierLogOdds * moves[member]);
                values[member] = odds / (odds + 1 - grown);
            }

            values.AsSpan(members.Count).Fill(values[members.Count - 1]);
        }
    }

    // Two even numbers from one mixed word make a normal one (Box and Muller 1958); its neighbour gets the opposite. A part begins with an
    // even member.
    private static void Normal(ulong seed, int day, int what, int first, Span<double> moves)
    {
        for (var member = 0; member < moves.Length; member += 2)
        {
            unchecked
            {
                var state =
                    seed
                    + ((ulong)(uint)day * 0xD1B54A32D192ED03)
                    + ((ulong)(uint)what * 0x8CB92BA72F3D8DD7)
                    + ((ulong)(uint)((first + member) / 2) * 0xAEF17502108EF2D9);
                var word = EvenDraws.Mixed(ref state);
                var radius = Math.Sqrt(-2 * Math.Log(((uint)word + 1.0) / 4294967297.0));
                moves[member] = radius * Math.Cos(2 * Math.PI * ((word >> 32) / 4294967296.0));
            }

            if (member + 1 < moves.Length)
            {
                moves[member + 1] = -moves[member];
            }
        }
    }
}
