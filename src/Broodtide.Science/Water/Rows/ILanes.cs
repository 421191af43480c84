namespace Broodtide.Science.Water.Rows;

/// <summary>
/// What a kernel asks of a vector, whatever its width: one source for 8, 4 and 2 numbers at once. The type parameter of
/// a kernel is a struct, so the compiler makes one body for each width and calls nothing.
/// </summary>
/// <typeparam name="TVector">The vector of this width.</typeparam>
internal interface ILanes<TVector>
    where TVector : struct
{
    /// <summary>Numbers in one vector.</summary>
    static abstract int Count { get; }

    /// <summary>One number in every lane.</summary>
    static abstract TVector All(double value);

    /// <summary>The numbers from a place on.</summary>
    static abstract TVector Load(ref double start, nuint at);

    /// <summary>Writes the numbers from a place on.</summary>
    static abstract void Store(TVector vector, ref double start, nuint at);

    static abstract TVector Add(TVector left, TVector right);

    static abstract TVector Subtract(TVector left, TVector right);

    static abstract TVector Multiply(TVector left, TVector right);

    static abstract TVector Divide(TVector left, TVector right);

    /// <summary>a b + c, rounded once where the processor can.</summary>
    static abstract TVector MultiplyAdd(TVector a, TVector b, TVector c);

    static abstract TVector Root(TVector vector);

    /// <summary>All bits set where left is less than right.</summary>
    static abstract TVector Less(TVector left, TVector right);

    /// <summary>All bits set where left is not greater than right; nothing where one is NaN.</summary>
    static abstract TVector AtMost(TVector left, TVector right);

    static abstract TVector And(TVector left, TVector right);

    /// <summary>Bits of the first that are not in the second.</summary>
    static abstract TVector Without(TVector left, TVector right);

    static abstract TVector Choose(TVector mask, TVector where, TVector otherwise);

    /// <summary>One bit a lane, set where the mask is.</summary>
    static abstract uint Bits(TVector mask);
}
