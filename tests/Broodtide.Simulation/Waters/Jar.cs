namespace Broodtide.Simulation.Waters;

/// <summary>
/// A litre-scale jar as a microbiologist would tell it, in carbon and with living bacteria: algae store nitrogen (Droop),
/// bacteria eat dissolved organic carbon and give off what nitrogen they do not need, nitrifiers are counted as
/// biomass, and acidity follows from carbon dioxide and alkalinity. Steps of two minutes, straight ahead. The numbers
/// are invented within what texts on water ecology hold usual; none is taken from the product.
/// </summary>
public sealed class Jar
{
    private const double StepDays = 2.0 / 1440;
    private const double NitrogenOfBacteria = 0.2; // g N a g C
    private const double OxygenOfCarbon = 32.0 / 12;
    private const double OxygenOfNitrogen = 4.3;
    private readonly JarNature _nature;

    public Jar(JarNature nature) => _nature = nature;

    public double Litres { get; private set; }
    public double Salinity { get; private set; }
    public double Celsius { get; set; } = 25;
    public double AlgaeCarbon { get; set; } // mg/L
    public double AlgaeNitrogen { get; set; }
    public double Particles { get; set; } // mg C/L, dead
    public double ParticlesNitrogen { get; set; }
    public double Dissolved { get; set; } // mg C/L, digestible
    public double DissolvedNitrogen { get; set; }
    public double Bacteria { get; set; } = 0.05; // mg C/L
    public double AmmoniaEaters { get; set; } // mg C/L
    public double NitriteEaters { get; set; }
    public double Ammonia { get; set; } // mg N/L
    public double Nitrite { get; set; }
    public double Nitrate { get; set; } = 0.3;
    public double Oxygen { get; set; } = 6.5;
    public double Carbonic { get; set; } = 1.9; // mmol/L of dissolved inorganic carbon
    public double Alkalinity { get; set; } = 2.2; // mmol/L
    public bool Air { get; set; }
    public double Larvae { get; set; }

    public double Saturation => Acid.OxygenAtSaturation(Celsius, Salinity);

    public double Ph => Acid.PhOf(Carbonic, Alkalinity, Celsius);

    public double UnionisedAmmonia => Ammonia * Acid.UnionisedShare(Ph, Celsius, Salinity);

    public double CarbonOfCellPg => _nature.CarbonOfCellPg;

    public double CellsPerMl => AlgaeCarbon / _nature.CarbonOfCellPg * 1e6;

    public void Fill(double litres, double salinity)
    {
        (Litres, Salinity) = (litres, salinity);
        Oxygen = Saturation;
    }

    /// <summary>Part of the water is taken away with all that is in it, and as much new sea water comes.</summary>
    public void Change(double share, double salinity)
    {
        var stays = 1 - share;
        Salinity = (Salinity * stays) + (salinity * share);
        AlgaeCarbon *= stays;
        AlgaeNitrogen *= stays;
        Particles *= stays;
        ParticlesNitrogen *= stays;
        Dissolved *= stays;
        DissolvedNitrogen *= stays;
        Bacteria *= stays;
        Ammonia *= stays;
        Nitrite *= stays;
        Nitrate = (Nitrate * stays) + (0.3 * share);
        Oxygen = (Oxygen * stays) + (Saturation * share);
        Carbonic = (Carbonic * stays) + (1.9 * share);
        Alkalinity = (Alkalinity * stays) + (2.2 * share);
    }

    /// <summary>Pure water lost to the room and put back.</summary>
    public void Dilute(double litresAdded)
    {
        var ratio = Litres / (Litres + litresAdded);
        Salinity *= ratio;
        Litres += litresAdded;
    }

    public void Evaporate(double litres)
    {
        Salinity *= Litres / (Litres - litres);
        Litres -= litres;
    }

    /// <summary>Dry food, mg/L: two fifths carbon; part of it leaches at once.</summary>
    public void Feed(double dryMgPerLitre, double nitrogenShare)
    {
        var carbon = 0.42 * dryMgPerLitre;
        var nitrogen = nitrogenShare * dryMgPerLitre;
        Dissolved += 0.15 * carbon;
        DissolvedNitrogen += 0.15 * nitrogen;
        Particles += 0.85 * carbon;
        ParticlesNitrogen += 0.85 * nitrogen;
    }

    public void AddAlgae(double carbonMgPerLitre)
    {
        AlgaeCarbon += carbonMgPerLitre;
        AlgaeNitrogen += carbonMgPerLitre * 0.16;
    }

    /// <summary>One step of two minutes.</summary>
    /// <param name="brightness">Light at the water now, µmol photons m⁻² s⁻¹.</param>
    /// <param name="stirred">How much faster gas is exchanged than by chance of the draw, 1 as drawn.</param>
    public void Step(double brightness, double stirred)
    {
        var warmth = Math.Pow(2, (Celsius - 25) / 10);
        var quota = AlgaeCarbon > 1e-9 ? AlgaeNitrogen / AlgaeCarbon : 0.16;

        // Algae: light saturates by a hyperbolic tangent; half of it reaches the middle of a dense culture.
        var light = brightness / (1 + (0.25 * AlgaeCarbon));
        var limit = Math.Clamp(1 - (0.05 / Math.Max(quota, 0.05)), 0, 1);
        var fixedCarbon =
            _nature.AlgaePerDay * warmth * Math.Tanh(light / _nature.LightHalf) * limit * AlgaeCarbon;
        var breathed = 0.08 * warmth * AlgaeCarbon;
        var hungry = Math.Clamp((0.2 - quota) / 0.15, 0, 1) * 0.12 * warmth * AlgaeCarbon;
        var takenAmmonia = hungry * Ammonia / (0.01 + Ammonia);
        var takenNitrate = (hungry - takenAmmonia) * Nitrate / (0.03 + Nitrate);
        var dying = _nature.AlgaeDie * (1 + (brightness < 1 ? 0.3 : 0)) * AlgaeCarbon;
        var eaten = Larvae * _nature.ClearedMl / 1000 / Math.Max(0.5, Litres) * AlgaeCarbon;

        // Bacteria: what they eat is half built in, half breathed.
        var hydrolysed = _nature.Hydrolysis * warmth * (Bacteria / (0.3 + Bacteria)) * Particles;
        var ofParticles = Particles > 1e-12 ? ParticlesNitrogen / Particles : 0;
        var consumed =
            _nature.BacteriaPerDay
            * warmth
            * (Dissolved / (0.6 + Dissolved))
            * (Oxygen / (0.2 + Oxygen))
            * Bacteria;
        consumed = Math.Min(consumed, Dissolved / StepDays * 0.5);
        var ofDissolved = Dissolved > 1e-12 ? DissolvedNitrogen / Dissolved : 0;
        var built = 0.45 * consumed;
        var bacteriaDie = 0.25 * warmth * Bacteria;
        var givenOff = (consumed * ofDissolved) - (built * NitrogenOfBacteria);
        if (givenOff < 0)
        {
            givenOff = Math.Max(givenOff, -0.5 * Ammonia / StepDays);
        }

        // Nitrifiers grow slowly on what they turn.
        var turned = 6 * AmmoniaEaters * warmth * Ammonia / (0.7 + Ammonia) * Oxygen / (0.5 + Oxygen);
        var turnedOn = 7 * NitriteEaters * warmth * Nitrite / (0.8 + Nitrite) * Oxygen / (1 + Oxygen);
        turned = Math.Min(turned, 0.5 * Ammonia / StepDays);
        turnedOn = Math.Min(turnedOn, 0.5 * Nitrite / StepDays);

        // Larvae give off and breathe.
        var perLitre = Larvae / Math.Max(0.5, Litres);
        var larvaeGive = perLitre * _nature.LarvaNitrogenMg;
        var larvaeBreathe = perLitre * 0.0035 * warmth;

        AlgaeCarbon += StepDays * (fixedCarbon - breathed - dying - eaten);
        AlgaeNitrogen += StepDays * (takenAmmonia + takenNitrate - ((dying + eaten) * quota));
        Particles += StepDays * (dying + bacteriaDie + (0.3 * eaten) - hydrolysed);
        ParticlesNitrogen +=
            StepDays
            * (
                (dying * quota)
                + (bacteriaDie * NitrogenOfBacteria)
                + (0.3 * eaten * quota)
                - (hydrolysed * ofParticles)
            );
        Dissolved += StepDays * (hydrolysed - consumed);
        DissolvedNitrogen += StepDays * ((hydrolysed * ofParticles) - (consumed * ofDissolved));
        Bacteria += StepDays * (built - bacteriaDie);
        AmmoniaEaters += StepDays * ((0.09 * turned) - (0.05 * AmmoniaEaters));
        NitriteEaters += StepDays * ((0.04 * turnedOn) - (0.05 * NitriteEaters));
        Ammonia += StepDays * (givenOff + larvaeGive + (0.4 * eaten * quota) - takenAmmonia - turned);
        Nitrite += StepDays * (turned - turnedOn);
        Nitrate += StepDays * (turnedOn - takenNitrate);

        var exchange = (Air ? _nature.ExchangeWithAir : _nature.ExchangeStill) * stirred;
        var breath = breathed + (0.55 * consumed) + (0.4 * eaten);
        Oxygen +=
            StepDays
            * (
                (exchange * (Saturation - Oxygen))
                + (OxygenOfCarbon * (fixedCarbon - breath))
                - larvaeBreathe
                - (OxygenOfNitrogen * (turned + turnedOn) * 0.5)
            );
        // Bubbles leave water that holds more than twice its share.
        Oxygen = Math.Clamp(Oxygen, 0, 2 * Saturation);
        Carbonic +=
            StepDays
            * (
                (0.9 * exchange * (Acid.DissolvedGasInAir - Acid.CarbonDioxide(Carbonic, Ph, Celsius)))
                + ((breath - fixedCarbon) / 12)
                + (larvaeBreathe / 32)
            );
        Alkalinity += StepDays * ((givenOff - takenAmmonia - (2 * turned) + takenNitrate) / 14);
        Floor();
    }

    private void Floor()
    {
        AlgaeCarbon = Math.Max(AlgaeCarbon, 0);
        AlgaeNitrogen = Math.Max(AlgaeNitrogen, 0);
        Ammonia = Math.Max(Ammonia, 0);
        Nitrite = Math.Max(Nitrite, 0);
        Nitrate = Math.Max(Nitrate, 0);
        Dissolved = Math.Max(Dissolved, 0);
        DissolvedNitrogen = Math.Max(DissolvedNitrogen, 0);
        Carbonic = Math.Max(Carbonic, 0.2);
        Alkalinity = Math.Max(Alkalinity, 0.3);
    }
}
