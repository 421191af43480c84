using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// One step of all members. Nitrogen moves by the modified Patankar Runge-Kutta scheme of second order (Burchard,
/// Deleersnijder and Meister 2003), its linear equations solved in closed form along the paths that exist: nothing turns
/// negative, nothing is lost. Oxygen and carbon follow from linear equations solved by a positive approximation of the
/// exponential, with the rates of both stages averaged.
/// </summary>
internal static class VesselStep
{
    /// <summary>Oxygen never stands above this share of saturation: more leaves as bubbles (this project's bound).</summary>
    internal const double MostOfSaturation = 3;

    /// <summary>Growth of nitrifiers as a logistic, 1/d: from a tenth to nine tenths in 15 days (this project's estimate).</summary>
    internal const double RipeningPerDay = 0.3;

    // Exchange of carbon dioxide for that of oxygen, by their diffusion (from memory).
    private const double DioxideForOxygen = 0.9;

    // Sugar made in the best light for what is burnt at the same time: twelve hours must last for a day (this project's
    // estimate).
    private const double SugarByDay = 2.5;

    // So that nothing is divided by nothing.
    private const double Tiny = 1e-30;

    /// <summary>Moves all members on by one step.</summary>
    internal static void Take(in HourTerms terms, double[][] stocks, double[][] parameters)
    {
        var lanes = stocks[0].Length / Lane.Count;
        for (var lane = 0; lane < lanes; lane++)
        {
            Take(in terms, stocks, parameters, lane * Lane.Count);
        }
    }

    private static void Take(in HourTerms t, double[][] stocks, double[][] parameters, int at)
    {
        var h = new Lane(t.Days);
        var k = new Constants(in t, parameters, at);
        var now = new Nitrogen(stocks, at);
        var oxygen = Load(stocks, Stock.Oxygen, at);
        var carbon = Load(stocks, Stock.Carbon, at);
        var alkalinity = Load(stocks, Stock.Alkalinity, at);
        var hydrogen = Load(stocks, Stock.Hydrogen, at);
        var suspended = Load(stocks, Stock.SuspendedDemand, at);
        var settled = Load(stocks, Stock.SettledDemand, at);
        var ammoniaOxidisers = Load(stocks, Stock.AmmoniaOxidisers, at);
        var nitriteOxidisers = Load(stocks, Stock.NitriteOxidisers, at);

        var first = new Rates(
            in t,
            in k,
            in now,
            oxygen,
            alkalinity,
            hydrogen,
            ammoniaOxidisers,
            nitriteOxidisers,
            Fed(in k, in now)
        );
        var tried = first.Solve(in now, h, k.Excreted);
        var triedSuspended =
            (suspended + (h * k.OxygenPerAlgae * first.AlgaeDie * tried.Algae))
            / (Lane.One + (h * (first.SuspendedBurn + first.Sink + first.SuspendedEaten)));
        var triedSettled =
            (
                settled
                + (h * ((first.Sink * triedSuspended) + (k.OxygenPerAlgae * first.FilmDie * tried.Film)))
            ) / (Lane.One + (h * first.SettledBurn));
        var firstGases = new Gases(
            in t,
            in k,
            in first,
            in now,
            suspended,
            settled,
            oxygen,
            carbon,
            hydrogen
        );
        var firstBuilt = new Built(in first, in tried, first.Grown + first.FilmGrown, in k);
        var triedOxygen = Bounded(
            Relaxed(oxygen, firstGases.OxygenIn + firstBuilt.Oxygen, firstGases.OxygenOut, h),
            in t
        );
        var triedCarbon = Relaxed(
            carbon,
            firstGases.CarbonIn,
            firstGases.CarbonOut + (firstBuilt.Carbon / Vector.Max(carbon, new(1e-9))),
            h
        );
        var triedAlkalinity = alkalinity + first.AlkalinityMade(in tried, in k, h);
        var triedHydrogen = Newton(in t, triedCarbon, triedAlkalinity, hydrogen, times: 1);
        var ripe = new Lane(t.Ripening);
        var nextAmmonia = Ripened(ammoniaOxidisers, ripe);
        var nextNitrite = Ripened(nitriteOxidisers, ripe);

        var second = new Rates(
            in t,
            in k,
            in tried,
            triedOxygen,
            triedAlkalinity,
            triedHydrogen,
            nextAmmonia,
            nextNitrite,
            t.Light > 0 ? firstBuilt.Fed : Fed(in k, in tried)
        );
        var secondGases = new Gases(
            in t,
            in k,
            in second,
            in tried,
            triedSuspended,
            triedSettled,
            triedOxygen,
            triedCarbon,
            triedHydrogen
        );
        var suspendedWeight = suspended / Vector.Max(triedSuspended, new(Tiny));
        var settledWeight = settled / Vector.Max(triedSettled, new(Tiny));
        var half = new Lane(0.5);
        var burn = half * ((first.SuspendedBurn * suspendedWeight) + second.SuspendedBurn);
        var burnSettled = half * ((first.SettledBurn * settledWeight) + second.SettledBurn);
        var sink = half * ((first.Sink * suspendedWeight) + second.Sink);
        var eaten = half * ((first.SuspendedEaten * suspendedWeight) + second.SuspendedEaten);
        var mean = Rates.Mean(in first, in now, in second, in tried);
        var next = mean.Solve(in now, h, k.Excreted);
        var nextSuspended =
            (suspended + (h * k.OxygenPerAlgae * mean.AlgaeDie * next.Algae))
            / (Lane.One + (h * (burn + sink + eaten)));
        var nextSettled =
            (settled + (h * ((sink * nextSuspended) + (k.OxygenPerAlgae * mean.FilmDie * next.Film))))
            / (Lane.One + (h * burnSettled));
        var built = new Built(
            in mean,
            in next,
            half * (first.Grown + first.FilmGrown + second.Grown + second.FilmGrown),
            in k
        );
        var nextOxygen = Bounded(
            Relaxed(
                oxygen,
                (half * (firstGases.OxygenIn + secondGases.OxygenIn)) + built.Oxygen,
                half * (firstGases.OxygenOut + secondGases.OxygenOut),
                h
            ),
            in t
        );
        var nextCarbon = Relaxed(
            carbon,
            half * (firstGases.CarbonIn + secondGases.CarbonIn),
            (half * (firstGases.CarbonOut + secondGases.CarbonOut))
                + (built.Carbon / Vector.Max(half * (carbon + triedCarbon), new(1e-9))),
            h
        );
        var nextAlkalinity = alkalinity + mean.AlkalinityMade(in next, in k, h);
        var nextHydrogen = Newton(in t, nextCarbon, nextAlkalinity, triedHydrogen, times: 2);

        next.Store(stocks, at);
        Save(stocks, Stock.SuspendedDemand, at, nextSuspended);
        Save(stocks, Stock.SettledDemand, at, nextSettled);
        Save(stocks, Stock.Oxygen, at, nextOxygen);
        Save(stocks, Stock.Carbon, at, nextCarbon);
        Save(stocks, Stock.Alkalinity, at, nextAlkalinity);
        Save(stocks, Stock.Hydrogen, at, nextHydrogen);
        Save(stocks, Stock.AmmoniaOxidisers, at, nextAmmonia);
        Save(stocks, Stock.NitriteOxidisers, at, nextNitrite);
        var litres = h * new Lane(t.Litres);
        Save(stocks, Stock.BroughtIn, at, Load(stocks, Stock.BroughtIn, at) + (litres * k.Excreted));
        Save(
            stocks,
            Stock.TakenOut,
            at,
            Load(stocks, Stock.TakenOut, at)
                + (litres * ((mean.AlgaeKept * next.Algae) + (mean.SuspendedEaten * next.Suspended)))
        );
    }

    /// <summary>What an hour leaves constant in a lane of members.</summary>
    private readonly struct Constants
    {
        internal Constants(in HourTerms t, double[][] parameters, int at)
        {
            var error = Load(parameters, (int)VesselParameter.LarvaeError, at);
            var scaled = error * new Lane(1 / 1.6448536269514722);
            var above = Vector.Max(scaled, Lane.Zero) * new Lane(t.LarvaeHigh - t.LarvaeMiddle);
            var below = Vector.Min(scaled, Lane.Zero) * new Lane(t.LarvaeMiddle - t.LarvaeLow);
            var larvae = Vector.Max(Lane.Zero, new Lane(t.LarvaeMiddle) + above + below);
            var milligrams = larvae * new Lane(t.LarvaMilligrams);
            Eaten =
                larvae * Load(parameters, (int)VesselParameter.ClearedMillilitresPerDay, at) * new Lane(1e-3);
            Excreted =
                milligrams
                * Load(parameters, (int)VesselParameter.ExcretedMicrogramsPerMilligramHour, at)
                * new Lane(24e-3);
            LarvaeBreathe = milligrams * new Lane(24e-3 * t.Chemistry.LarvalBreathMicrograms);
            Exchange =
                (
                    Load(parameters, (int)VesselParameter.StillSurfaceMetresPerDay, at)
                    * new Lane(t.Gas / t.Depth)
                )
                + (Load(parameters, (int)VesselParameter.GentleAirPerDay, at) * new Lane(t.Bubbling * t.Gas));
            // g/(m2 d) is 0.1 mg/(cm2 d).
            Nitrified =
                Load(parameters, (int)VesselParameter.NitrifiedGramsPerSquareMetreDay, at)
                * new Lane(0.1 * t.NitrifyingPerLitre * t.Decay);
            Growth = Load(parameters, (int)VesselParameter.AlgalGrowthPerDay, at) * new Lane(t.Growth);
            FilmGrowth = Load(parameters, (int)VesselParameter.FilmGrowthPerDay, at) * new Lane(t.Growth);
            LightRatio = new Lane(t.Light) / Load(parameters, (int)VesselParameter.BestLightMicromoles, at);
            Darkened = t.Light > 0 ? Vector.Exp(-LightRatio) : Lane.One;
            Shading = Load(parameters, (int)VesselParameter.ShadingPerMetre, at);
            HalfGrowth = Load(parameters, (int)VesselParameter.HalfGrowthNitrogen, at) + new Lane(Tiny);
            HalfNitrified = Load(parameters, (int)VesselParameter.HalfNitrifiedNitrogen, at) + new Lane(Tiny);
            Death = Load(parameters, (int)VesselParameter.AlgalDeathPerDay, at) * new Lane(t.Decay);
            Starved = Load(parameters, (int)VesselParameter.StarvedDeathPerDay, at) * new Lane(t.Decay);
            FilmDeath = Load(parameters, (int)VesselParameter.FilmLossPerDay, at) * new Lane(t.Decay);
            Decay = Load(parameters, (int)VesselParameter.DecayPerDay, at) * new Lane(t.Decay);
            Burn = Decay * Load(parameters, (int)VesselParameter.OxygenHaste, at);
            Sink = Load(parameters, (int)VesselParameter.SinkingPerDay, at) * new Lane(t.Falling);
            ThickFilm =
                (
                    Load(parameters, (int)VesselParameter.ThickFilmMilligramsPerSquareCentimetre, at)
                    * new Lane(t.Walls)
                ) + new Lane(Tiny);
            Breath = Load(parameters, (int)VesselParameter.AlgalBreathPerDay, at) * new Lane(t.Decay);
            Unfed = Load(parameters, (int)VesselParameter.UnfedPhotosynthesis, at);
            RoomDioxide =
                Load(parameters, (int)VesselParameter.RoomCarbonDioxide, at)
                * new Lane(t.Carbonate.PerMicroatmosphere);
            OxygenPerAlgae = new(VesselChemistry.OxygenPerAlgalNitrogen);
        }

        internal readonly Lane Eaten;
        internal readonly Lane Excreted;
        internal readonly Lane LarvaeBreathe;
        internal readonly Lane Exchange;
        internal readonly Lane Nitrified;
        internal readonly Lane Growth;
        internal readonly Lane FilmGrowth;
        internal readonly Lane LightRatio;
        internal readonly Lane Darkened;
        internal readonly Lane Shading;
        internal readonly Lane HalfGrowth;
        internal readonly Lane HalfNitrified;
        internal readonly Lane Death;
        internal readonly Lane Starved;
        internal readonly Lane FilmDeath;
        internal readonly Lane Decay;
        internal readonly Lane Burn;
        internal readonly Lane Sink;
        internal readonly Lane ThickFilm;
        internal readonly Lane Breath;
        internal readonly Lane Unfed;
        internal readonly Lane RoomDioxide;
        internal readonly Lane OxygenPerAlgae;
    }

    /// <summary>The seven stocks of nitrogen.</summary>
    private readonly struct Nitrogen
    {
        internal Nitrogen(double[][] stocks, int at)
        {
            Algae = Load(stocks, Stock.Algae, at);
            Film = Load(stocks, Stock.Film, at);
            Suspended = Load(stocks, Stock.Suspended, at);
            Settled = Load(stocks, Stock.Settled, at);
            Tan = Load(stocks, Stock.Tan, at);
            Nitrite = Load(stocks, Stock.Nitrite, at);
            Nitrate = Load(stocks, Stock.Nitrate, at);
        }

        internal Lane Algae { get; init; }

        internal Lane Film { get; init; }

        internal Lane Suspended { get; init; }

        internal Lane Settled { get; init; }

        internal Lane Tan { get; init; }

        internal Lane Nitrite { get; init; }

        internal Lane Nitrate { get; init; }

        internal void Store(double[][] stocks, int at)
        {
            Save(stocks, Stock.Algae, at, Algae);
            Save(stocks, Stock.Film, at, Film);
            Save(stocks, Stock.Suspended, at, Suspended);
            Save(stocks, Stock.Settled, at, Settled);
            Save(stocks, Stock.Tan, at, Tan);
            Save(stocks, Stock.Nitrite, at, Nitrite);
            Save(stocks, Stock.Nitrate, at, Nitrate);
        }
    }

    /// <summary>Every flow of nitrogen as a rate, 1/d, of the stock it leaves.</summary>
    private readonly struct Rates
    {
        internal Rates(
            in HourTerms t,
            in Constants k,
            in Nitrogen held,
            Lane oxygen,
            Lane alkalinity,
            Lane hydrogen,
            Lane ammoniaOxidisers,
            Lane nitriteOxidisers,
            Lane fed
        )
        {
            var tiny = new Lane(Tiny);
            var nitrogen = held.Tan + held.Nitrate;
            var perNitrogen = Lane.One / (k.HalfGrowth + nitrogen);
            Breathing = oxygen / (oxygen + new Lane(t.Chemistry.HalfOxygen) + tiny);
            Lit = t.Light > 0 ? LightShare(in t, in k, held.Algae) : Lane.Zero;
            Lit *= hydrogen / (hydrogen + new Lane(t.HighPhHydrogen));
            var room = Vector.Max(Lane.Zero, Lane.One - (held.Film / k.ThickFilm));
            Grown = k.Growth * Lit * held.Algae;
            FilmGrown = k.FilmGrowth * Lit * room * held.Film;
            AlgaeTake = Grown * perNitrogen;
            FilmTake = FilmGrown * perNitrogen;
            var died = k.Death + (k.Starved * (Lane.One - fed));
            AlgaeDie = died + (k.Eaten * new Lane(t.Chemistry.EgestedShare));
            AlgaeKept = k.Eaten * new Lane(1 - t.Chemistry.EgestedShare);
            SuspendedEaten = AlgaeKept * new Lane(t.Chemistry.DustForCells);
            FilmDie = k.FilmDeath;
            Sink = k.Sink;
            var airless = new Lane(t.Chemistry.AirlessDecay);
            SuspendedDecay = k.Decay * (airless + ((Lane.One - airless) * Breathing));
            SettledDecay = SuspendedDecay;
            SuspendedBurn = k.Burn * Breathing;
            SettledBurn = SuspendedBurn;
            var positive = Vector.Max(Lane.Zero, alkalinity);
            var buffered = positive / (positive + new Lane(t.Chemistry.HalfAlkalinity) + tiny);
            TanOxidised =
                k.Nitrified * ammoniaOxidisers * Breathing * buffered / (k.HalfNitrified + held.Tan);
            NitriteOxidised = k.Nitrified * nitriteOxidisers * Breathing / (k.HalfNitrified + held.Nitrite);
        }

        internal Lane Breathing { get; init; }

        internal Lane Lit { get; init; }

        /// <summary>Growth with nitrogen in plenty, mg/L/d.</summary>
        internal Lane Grown { get; init; }

        internal Lane FilmGrown { get; init; }

        internal Lane AlgaeTake { get; init; }

        internal Lane FilmTake { get; init; }

        internal Lane AlgaeDie { get; init; }

        internal Lane AlgaeKept { get; init; }

        internal Lane FilmDie { get; init; }

        internal Lane Sink { get; init; }

        internal Lane SuspendedDecay { get; init; }

        internal Lane SuspendedEaten { get; init; }

        internal Lane SettledDecay { get; init; }

        internal Lane SuspendedBurn { get; init; }

        internal Lane SettledBurn { get; init; }

        internal Lane TanOxidised { get; init; }

        internal Lane NitriteOxidised { get; init; }

        /// <summary>The mean of the flows of two states, as rates of the second.</summary>
        internal static Rates Mean(in Rates a, in Nitrogen atA, in Rates b, in Nitrogen atB)
        {
            var half = new Lane(0.5);
            var tiny = new Lane(Tiny);
            var algae = half * atA.Algae / Vector.Max(atB.Algae, tiny);
            var film = half * atA.Film / Vector.Max(atB.Film, tiny);
            var suspended = half * atA.Suspended / Vector.Max(atB.Suspended, tiny);
            var settled = half * atA.Settled / Vector.Max(atB.Settled, tiny);
            var tan = half * atA.Tan / Vector.Max(atB.Tan, tiny);
            var nitrite = half * atA.Nitrite / Vector.Max(atB.Nitrite, tiny);
            var nitrate = half * atA.Nitrate / Vector.Max(atB.Nitrate, tiny);
            return new()
            {
                AlgaeTake = (a.AlgaeTake * tan) + (half * b.AlgaeTake),
                FilmTake = (a.FilmTake * tan) + (half * b.FilmTake),
                AlgaeTakeNitrate = (a.AlgaeTake * nitrate) + (half * b.AlgaeTake),
                FilmTakeNitrate = (a.FilmTake * nitrate) + (half * b.FilmTake),
                AlgaeDie = (a.AlgaeDie * algae) + (half * b.AlgaeDie),
                AlgaeKept = (a.AlgaeKept * algae) + (half * b.AlgaeKept),
                FilmDie = (a.FilmDie * film) + (half * b.FilmDie),
                Sink = (a.Sink * suspended) + (half * b.Sink),
                SuspendedDecay = (a.SuspendedDecay * suspended) + (half * b.SuspendedDecay),
                SuspendedEaten = (a.SuspendedEaten * suspended) + (half * b.SuspendedEaten),
                SettledDecay = (a.SettledDecay * settled) + (half * b.SettledDecay),
                TanOxidised = (a.TanOxidised * tan) + (half * b.TanOxidised),
                NitriteOxidised = (a.NitriteOxidised * nitrite) + (half * b.NitriteOxidised),
                HasNitrateRates = true,
            };
        }

        private Lane AlgaeTakeNitrate { get; init; }

        private Lane FilmTakeNitrate { get; init; }

        // In the first stage ammonia and nitrate are taken at one rate.
        private bool HasNitrateRates { get; init; }

        internal Lane OfNitrate => HasNitrateRates ? AlgaeTakeNitrate : AlgaeTake;

        internal Lane FilmOfNitrate => HasNitrateRates ? FilmTakeNitrate : FilmTake;

        /// <summary>
        /// Where the rates lead in a step, solved backward in time: every stock is written as a part of its own and a part
        /// of the ammonia at the end, through which alone all circles go.
        /// </summary>
        internal Nitrogen Solve(in Nitrogen held, Lane h, Lane excreted)
        {
            var one = Lane.One;
            var nitrite = one / (one + (h * NitriteOxidised));
            var nitriteOwn = held.Nitrite * nitrite;
            var nitriteOfTan = h * TanOxidised * nitrite;
            var nitrate = one / (one + (h * (OfNitrate + FilmOfNitrate)));
            var nitrateOwn = (held.Nitrate + (h * NitriteOxidised * nitriteOwn)) * nitrate;
            var nitrateOfTan = h * NitriteOxidised * nitriteOfTan * nitrate;
            var algae = one / (one + (h * (AlgaeDie + AlgaeKept)));
            var algaeOwn = (held.Algae + (h * OfNitrate * nitrateOwn)) * algae;
            var algaeOfTan = h * (AlgaeTake + (OfNitrate * nitrateOfTan)) * algae;
            var film = one / (one + (h * FilmDie));
            var filmOwn = (held.Film + (h * FilmOfNitrate * nitrateOwn)) * film;
            var filmOfTan = h * (FilmTake + (FilmOfNitrate * nitrateOfTan)) * film;
            var suspended = one / (one + (h * (SuspendedDecay + Sink + SuspendedEaten)));
            var suspendedOwn = (held.Suspended + (h * AlgaeDie * algaeOwn)) * suspended;
            var suspendedOfTan = h * AlgaeDie * algaeOfTan * suspended;
            var settled = one / (one + (h * SettledDecay));
            var settledOwn = (held.Settled + (h * ((Sink * suspendedOwn) + (FilmDie * filmOwn)))) * settled;
            var settledOfTan = h * ((Sink * suspendedOfTan) + (FilmDie * filmOfTan)) * settled;
            var tan =
                (held.Tan + (h * (excreted + (SuspendedDecay * suspendedOwn) + (SettledDecay * settledOwn))))
                / (
                    one
                    + (
                        h
                        * (
                            AlgaeTake
                            + FilmTake
                            + TanOxidised
                            - (SuspendedDecay * suspendedOfTan)
                            - (SettledDecay * settledOfTan)
                        )
                    )
                );
            return new()
            {
                Tan = tan,
                Nitrite = nitriteOwn + (nitriteOfTan * tan),
                Nitrate = nitrateOwn + (nitrateOfTan * tan),
                Algae = algaeOwn + (algaeOfTan * tan),
                Film = filmOwn + (filmOfTan * tan),
                Suspended = suspendedOwn + (suspendedOfTan * tan),
                Settled = settledOwn + (settledOfTan * tan),
            };
        }

        /// <summary>
        /// Alkalinity that the flows of a step make, meq/L: one for a nitrogen that becomes ammonia or is taken as
        /// nitrate, one less for ammonia taken up, two less for ammonia oxidised (Wolf-Gladrow et al. 2007, Mar. Chem.
        /// 106:287, from memory).
        /// </summary>
        internal Lane AlkalinityMade(in Nitrogen end, in Constants k, Lane h)
        {
            var made =
                k.Excreted
                + (SuspendedDecay * end.Suspended)
                + (SettledDecay * end.Settled)
                + ((OfNitrate + FilmOfNitrate) * end.Nitrate)
                - ((AlgaeTake + FilmTake) * end.Tan)
                - (new Lane(Waste.Nitrification.BicarbonateMolesPerMole) * TanOxidised * end.Tan);
            return h * made * new Lane(1 / VesselChemistry.NitrogenMolar);
        }
    }

    /// <summary>
    /// What the flows of a step built, a day. Where nitrogen is taken as fast as it comes, its concentration says little
    /// and the flows say all.
    /// </summary>
    private readonly struct Built
    {
        internal Built(in Rates rates, in Nitrogen end, Lane grown, in Constants k)
        {
            var ofNitrate = (rates.OfNitrate + rates.FilmOfNitrate) * end.Nitrate;
            var taken = ((rates.AlgaeTake + rates.FilmTake) * end.Tan) + ofNitrate;
            var made = (taken + (k.Unfed * Vector.Max(Lane.Zero, grown - taken))) * k.OxygenPerAlgae;
            Oxygen = made + (ofNitrate * new Lane(VesselChemistry.OxygenPerNitrateNitrogen));
            Carbon = made * new Lane(1 / VesselChemistry.OxygenMolar);
            Fed = Vector.Min(Lane.One, (taken + new Lane(Tiny)) / (grown + new Lane(Tiny)));
        }

        /// <summary>Oxygen, mg/L/d.</summary>
        internal Lane Oxygen { get; }

        /// <summary>Carbon taken, mmol/L/d.</summary>
        internal Lane Carbon { get; }

        /// <summary>What was taken as a share of what would be with nitrogen in plenty; means nothing in the dark.</summary>
        internal Lane Fed { get; }
    }

    /// <summary>What comes to oxygen and carbon a day but for what is built, and the rates at which they leave.</summary>
    private readonly struct Gases
    {
        internal Gases(
            in HourTerms t,
            in Constants k,
            in Rates r,
            in Nitrogen held,
            Lane suspended,
            Lane settled,
            Lane oxygen,
            Lane carbon,
            Lane hydrogen
        )
        {
            var tiny = new Lane(Tiny);
            // The sugar that algae burn by day and night is made again by day, on top of what they build.
            var breath = (held.Algae + held.Film) * k.Breath * k.OxygenPerAlgae;
            var regained = breath * r.Lit * new Lane(SugarByDay);
            var burnt = ((suspended + settled) * k.Burn) + breath + k.LarvaeBreathe;
            var nitrified =
                (new Lane(VesselChemistry.OxygenPerAmmoniaNitrogen) * r.TanOxidised * held.Tan)
                + (new Lane(VesselChemistry.OxygenPerNitriteNitrogen) * r.NitriteOxidised * held.Nitrite);
            var perOxygen = Lane.One / (oxygen + new Lane(t.Chemistry.HalfOxygen) + tiny);
            OxygenIn = (k.Exchange * new Lane(t.Saturation)) + regained;
            OxygenOut = k.Exchange + (burnt * perOxygen) + (nitrified / Vector.Max(oxygen, new Lane(1e-6)));

            var c = t.Carbonate;
            var (one, two) = (new Lane(c.First), new Lane(c.Second));
            var all = (hydrogen * (hydrogen + one)) + (one * two);
            var carbonates = hydrogen + two + two;
            var perAll = Lane.One / all;
            var share = hydrogen * hydrogen * perAll;
            var dioxide = carbon * share;
            var steep = one * carbonates * perAll;
            var slope = Slope(in t, carbon, hydrogen, perAll, carbonates);
            // d(CO2)/d(carbon) with the alkalinity kept: the pH goes along.
            var kept = share + (carbon * hydrogen * one * carbonates * perAll * perAll * (steep / slope));
            var exchange = k.Exchange * new Lane(DioxideForOxygen);
            var toMoles = new Lane(1 / VesselChemistry.OxygenMolar);
            CarbonIn =
                (exchange * (k.RoomDioxide + Vector.Max(Lane.Zero, (kept * carbon) - dioxide)))
                + (burnt * oxygen * perOxygen * toMoles);
            CarbonOut = (exchange * kept) + (regained * toMoles / Vector.Max(carbon, new Lane(1e-9)));
        }

        internal Lane OxygenIn { get; }

        internal Lane OxygenOut { get; }

        internal Lane CarbonIn { get; }

        internal Lane CarbonOut { get; }
    }

    private static Lane Fed(in Constants k, in Nitrogen held)
    {
        var nitrogen = held.Tan + held.Nitrate;
        return nitrogen / (k.HalfGrowth + nitrogen);
    }

    // Mean of Steele's share of the best growth over the depth.
    private static Lane LightShare(in HourTerms t, in Constants k, Lane algae)
    {
        var thickness = Vector.Max(
            new Lane(1e-5),
            (new Lane(t.Chemistry.ClearWaterPerMetre) + (k.Shading * algae)) * new Lane(t.Depth)
        );
        var deep = Vector.Exp(-k.LightRatio * Vector.Exp(-thickness));
        return Vector.Max(Lane.Zero, new Lane(Math.E) * (deep - k.Darkened) / thickness);
    }

    // y' = in - out y over a step: the exponential as 1/(1 + x + x2/2 + x3/6 + x4/24), which is never negative.
    private static Lane Relaxed(Lane held, Lane coming, Lane leaving, Lane h)
    {
        var x = leaving * h;
        var one = Lane.One;
        var up = one + (x * (new Lane(0.5) + (x * (new Lane(1.0 / 6) + (x * new Lane(1.0 / 24))))));
        return (held + (coming * h * up)) / (one + (x * up));
    }

    private static Lane Ripened(Lane grown, Lane growth) =>
        grown * growth / (Lane.One + (grown * (growth - Lane.One)));

    private static Lane Bounded(Lane oxygen, in HourTerms t) =>
        Vector.Min(oxygen, new Lane(MostOfSaturation * t.Saturation));

    // Steps of Newton for the hydrogen ions of a carbon and an alkalinity, none of them by more than three times.
    private static Lane Newton(in HourTerms t, Lane carbon, Lane alkalinity, Lane hydrogen, int times)
    {
        var c = t.Carbonate;
        var (one, two) = (new Lane(c.First), new Lane(c.Second));
        for (var i = 0; i < times; i++)
        {
            var perAll = Lane.One / ((hydrogen * (hydrogen + one)) + (one * two));
            var carbonates = hydrogen + two + two;
            var told =
                (carbon * one * carbonates * perAll)
                + (new Lane(c.Boron * c.Boric) / (new Lane(c.Boric) + hydrogen))
                + (new Lane(c.Water) / hydrogen)
                - hydrogen;
            var slope = Slope(in t, carbon, hydrogen, perAll, carbonates);
            var factor = Lane.One + ((told - alkalinity) / (slope * hydrogen));
            hydrogen *= Vector.Min(new Lane(3), Vector.Max(new Lane(1.0 / 3), factor));
            hydrogen = Vector.Min(new Lane(c.Most), Vector.Max(new Lane(c.Least), hydrogen));
        }

        return hydrogen;
    }

    // How much alkalinity falls with the hydrogen ions; above zero.
    private static Lane Slope(in HourTerms t, Lane carbon, Lane hydrogen, Lane perAll, Lane carbonates)
    {
        var c = t.Carbonate;
        var one = new Lane(c.First);
        var boric = Lane.One / (new Lane(c.Boric) + hydrogen);
        return (carbon * one * perAll * ((carbonates * (hydrogen + hydrogen + one) * perAll) - Lane.One))
            + (new Lane(c.Boron * c.Boric) * boric * boric)
            + (new Lane(c.Water) / (hydrogen * hydrogen))
            + Lane.One;
    }

    private static Lane Load(double[][] arrays, int array, int at) => new(arrays[array], at);

    private static void Save(double[][] arrays, int array, int at, Lane value) =>
        value.CopyTo(arrays[array], at);
}
