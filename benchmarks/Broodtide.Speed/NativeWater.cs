using System.Runtime.InteropServices;

namespace Broodtide.Speed;

/// <summary>The peer of the water kernels, built by eng/speed from benchmarks/native/water.c.</summary>
internal sealed unsafe class NativeWater(string path)
{
    private readonly nint _library = NativeLibrary.Load(path);

    public void Three(string name, double[] first, double[] second, double[] third, double[] result)
    {
        var call = (delegate* unmanaged<double*, double*, double*, double*, nuint, void>)
            NativeLibrary.GetExport(_library, name);
        fixed (
            double* a = first,
                b = second,
                c = third,
                d = result
        )
        {
            call(a, b, c, d, (nuint)result.Length);
        }
    }

    public void Two(string name, double[] first, double[] second, double[] result)
    {
        var call = (delegate* unmanaged<double*, double*, double*, nuint, void>)
            NativeLibrary.GetExport(_library, name);
        fixed (
            double* a = first,
                b = second,
                d = result
        )
        {
            call(a, b, d, (nuint)result.Length);
        }
    }

    public void One(string name, double[] first, double[] result)
    {
        var call = (delegate* unmanaged<double*, double*, nuint, void>)
            NativeLibrary.GetExport(_library, name);
        fixed (
            double* a = first,
                d = result
        )
        {
            call(a, d, (nuint)result.Length);
        }
    }

    public double MultiplyAdds(long turns) =>
        ((delegate* unmanaged<nuint, double>)NativeLibrary.GetExport(_library, "multiply_adds"))(
            (nuint)turns
        );
}
