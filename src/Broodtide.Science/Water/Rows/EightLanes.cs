using System.Runtime.Intrinsics;

namespace Broodtide.Science.Water.Rows;

/// <summary>Eight at once.</summary>
internal readonly struct EightLanes : ILanes<Vector512<double>>
{
    public static int Count => Vector512<double>.Count;

    public static Vector512<double> All(double value) => Vector512.Create(value);

    public static Vector512<double> Load(ref double start, nuint at) => Vector512.LoadUnsafe(ref start, at);

    public static void Store(Vector512<double> vector, ref double start, nuint at) =>
        vector.StoreUnsafe(ref start, at);

    public static Vector512<double> Add(Vector512<double> left, Vector512<double> right) => left + right;

    public static Vector512<double> Subtract(Vector512<double> left, Vector512<double> right) => left - right;

    public static Vector512<double> Multiply(Vector512<double> left, Vector512<double> right) => left * right;

    public static Vector512<double> Divide(Vector512<double> left, Vector512<double> right) => left / right;

    public static Vector512<double> MultiplyAdd(
        Vector512<double> a,
        Vector512<double> b,
        Vector512<double> c
    ) => Vector512.MultiplyAddEstimate(a, b, c);

    public static Vector512<double> Root(Vector512<double> vector) => Vector512.Sqrt(vector);

    public static Vector512<double> Less(Vector512<double> left, Vector512<double> right) =>
        Vector512.LessThan(left, right);

    public static Vector512<double> AtMost(Vector512<double> left, Vector512<double> right) =>
        Vector512.LessThanOrEqual(left, right);

    public static Vector512<double> And(Vector512<double> left, Vector512<double> right) => left & right;

    public static Vector512<double> Without(Vector512<double> left, Vector512<double> right) =>
        Vector512.AndNot(left, right);

    public static Vector512<double> Choose(
        Vector512<double> mask,
        Vector512<double> where,
        Vector512<double> otherwise
    ) => Vector512.ConditionalSelect(mask, where, otherwise);

    public static uint Bits(Vector512<double> mask) => (uint)Vector512.ExtractMostSignificantBits(mask);
}
