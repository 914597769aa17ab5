using QRCoder;

namespace Lastoff.Papers;

/// <summary>QR codes (ISO/IEC 18004) as plain modules.</summary>
internal static class QrModules
{
    /// <summary>What the library draws around its codes.</summary>
    private const int Quiet = 4;

    /// <summary>By row and column, true for dark, without the quiet zone. A seventh of it may be torn or oily.</summary>
    public static bool[,] Of(string link)
    {
        using var code = QRCodeGenerator.GenerateQrCode(link, QRCodeGenerator.ECCLevel.M);
        var side = code.ModuleMatrix.Count - 2 * Quiet;
        var dark = new bool[side, side];
        for (var row = 0; row < side; row++)
        {
            for (var column = 0; column < side; column++)
            {
                dark[row, column] = code.ModuleMatrix[row + Quiet][column + Quiet];
            }
        }

        return dark;
    }
}
