using System.Runtime.Intrinsics;

namespace Broodtide.Science.Water.Rows;

/// <summary>Four at once.</summary>
internal readonly struct FourLanes : ILanes<Vector256<double>>
{
    public static int Count => Vector256<double>.Count;

    public static Vector256<double> All(double value) => Vector256.Create(value);

    public static Vector256<double> Load(ref double start, nuint at) => Vector256.LoadUnsafe(ref start, at);

    public static void Store(Vector256<double> vector, ref double start, nuint at) =>
        vector.StoreUnsafe(ref start, at);

    public static Vector256<double> Add(Vector256<double> left, Vector256<double> right) => left + right;

    public static Vector256<double> Subtract(Vector256<double> left, Vector256<double> right) => left - right;

    public static Vector256<double> Multiply(Vector256<double> left, Vector256<double> right) => left * right;

    public static Vector256<double> Divide(Vector256<double> left, Vector256<double> right) => left / right;

    public static Vector256<double> MultiplyAdd(
        Vector256<double> a,
        Vector256<double> b,
        Vector256<double> c
    ) => Vector256.MultiplyAddEstimate(a, b, c);

    public static Vector256<double> Root(Vector256<double> vector) => Vector256.Sqrt(vector);

    public static Vector256<double> Less(Vector256<double> left, Vector256<double> right) =>
        Vector256.LessThan(left, right);

    public static Vector256<double> AtMost(Vector256<double> left, Vector256<double> right) =>
        Vector256.LessThanOrEqual(left, right);

    public static Vector256<double> And(Vector256<double> left, Vector256<double> right) => left & right;

    public static Vector256<double> Without(Vector256<double> left, Vector256<double> right) =>
        Vector256.AndNot(left, right);

    public static Vector256<double> Choose(
        Vector256<double> mask,
        Vector256<double> where,
        Vector256<double> otherwise
    ) => Vector256.ConditionalSelect(mask, where, otherwise);

    public static uint Bits(Vector256<double> mask) => Vector256.ExtractMostSignificantBits(mask);
}
