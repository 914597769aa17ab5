namespace Lastoff.Core.Pricing;

/// <summary>A currency of ISO 4217, list one.</summary>
/// <remarks>The list lies beside this file, with where it is from. Codes without a minor unit (metals, accounting units) are no money to pay a repair with.</remarks>
public sealed record Currency
{
    private static readonly Dictionary<string, Currency> ByCode = Listed().ToDictionary(currency => currency.Code);

    private Currency(string code, int decimals, string name) => (Code, Decimals, Name) = (code, decimals, name);

    /// <summary>Three capital letters.</summary>
    public string Code { get; }

    /// <summary>How many decimals its smallest unit has, 0 to 4; -1 where the list has no minor unit, and such a currency never leaves <see cref="Of"/>.</summary>
    public int Decimals { get; }

    /// <summary>As the list has it, in English.</summary>
    public string Name { get; }

    /// <summary>The smallest amount: 0.01 where there are two decimals.</summary>
    public decimal Smallest => new(1, 0, 0, false, (byte)Decimals);

    /// <summary>The currency of an alphabetic code, or why there is none.</summary>
    /// <param name="code">Three letters; capitals do not matter.</param>
    public static Answer<Currency> Of(string code) =>
        !ByCode.TryGetValue(code.Trim().ToUpperInvariant(), out var currency)
            ? Answer.None<Currency>($"“{code}” is no current currency of ISO 4217; write its three letters, such as EUR.")
            : currency.Decimals < 0
                ? Answer.None<Currency>($"“{currency.Code}” ({currency.Name}) has no minor unit in ISO 4217, so no price can be written in it; take a currency that is paid with, such as EUR.")
                : currency;

    public bool Equals(Currency? other) => other?.Code == Code;

    public override int GetHashCode() => Code.GetHashCode(StringComparison.Ordinal);

    public override string ToString() => Code;

    private static IEnumerable<Currency> Listed()
    {
        const string Name = "Lastoff.Core.Pricing.iso4217.txt";
        using var stream = typeof(Currency).Assembly.GetManifestResourceStream(Name) ?? throw new InvalidOperationException($"{Name} is not in the assembly.");
        using var reader = new StreamReader(stream);
        while (reader.ReadLine() is { } line)
        {
            if (!line.StartsWith('#') && line.Split(' ', 3) is [var code, var decimals, var name])
            {
                yield return new Currency(code, decimals == "-" ? -1 : decimals[0] - '0', name);
            }
        }
    }
}
